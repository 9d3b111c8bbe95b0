import { flushSync, mount, unmount } from 'svelte';
import type { Stretch } from '$lib/core/tune/places';
import TabView from '$lib/ui/tab/TabView.svelte';
import '$lib/ui/tokens.css';

const SVG = 'http://www.w3.org/2000/svg';
/** As `TabView` paints: path data stands for the many small shapes of a line, texts are one each. */
const PLAIN_PATH = 'M10 10h30v20h-30z';

const bench = {
  /** From the call until the page has been laid out, in milliseconds. */
  drawMs(stretches: readonly Stretch[], width: number): { ms: number; texts: number; paths: number } {
    const host = freshHost(width);
    const start = performance.now();
    const view = mount(TabView, {
      target: host,
      props: { stretches, meter: '2/4', hidden: false, compact: true },
    });
    flushSync();
    void host.getBoundingClientRect().height;
    const ms = performance.now() - start;
    const texts = host.querySelectorAll('text').length;
    const paths = host.querySelectorAll('path, rect').length;
    void unmount(view);
    host.remove();
    return { ms, texts, paths };
  },
  /** As many plain texts and paths, made by hand. */
  plainMs(texts: number, paths: number, width: number): number {
    const host = freshHost(width);
    const start = performance.now();
    const drawing = document.createElementNS(SVG, 'svg');
    for (let index = 0; index < texts; index++) {
      const text = document.createElementNS(SVG, 'text');
      text.setAttribute('x', String((index % 40) * 20));
      text.setAttribute('y', String(Math.floor(index / 40) * 20));
      text.setAttribute('font-size', '13');
      text.textContent = String(index % 10);
      drawing.append(text);
    }
    for (let index = 0; index < paths; index++) {
      const path = document.createElementNS(SVG, 'path');
      path.setAttribute('d', PLAIN_PATH);
      drawing.append(path);
    }
    host.append(drawing);
    void host.getBoundingClientRect().height;
    const ms = performance.now() - start;
    host.remove();
    return ms;
  },
};

function freshHost(width: number): HTMLElement {
  const host = document.createElement('div');
  host.style.width = `${width}px`;
  document.body.append(host);
  return host;
}

export type TabBench = typeof bench;

declare global {
  interface Window {
    tabBench: TabBench;
  }
}

window.tabBench = bench;
