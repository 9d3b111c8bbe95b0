import { flushSync, mount, unmount } from 'svelte';
import { readBackup } from '$lib/core/book/backup';
import type { Meter } from '$lib/core/rhythm/meter';
import { passageStretches, type Stretch } from '$lib/core/tune/places';
import { firstLayer } from '$lib/core/tune/places';
import '$lib/ui/base.css';
import TabView from '$lib/ui/tab/TabView.svelte';
import demo from '../../../sample-data/demo-book.json?raw';

/** Times in ms, from nothing on the page until the browser has laid it out. */
export interface TabTimes {
  /** Drawn by the app's component. */
  drawn: number;
  /** The same markup, parsed by the browser. */
  parsed: number;
}

export interface TabBench {
  /** Draws so many measures of a demo tune, once by the component and once as markup. */
  draw(measures: number, compact: boolean): TabTimes;
}

declare global {
  interface Window {
    tabBench: TabBench;
  }
}

const { stretches, meter } = demoTune();

window.tabBench = {
  draw(measures, compact) {
    const host = document.createElement('main');
    document.body.replaceChildren(host);
    void host.offsetHeight;
    const props = {
      stretches: Array.from({ length: measures }, (_, index) => stretches[index % stretches.length]!),
      ...{ meter, compact, hidden: false },
    };
    const begun = performance.now();
    const view = mount(TabView, { target: host, props });
    flushSync();
    void host.offsetHeight;
    const drawn = performance.now() - begun;
    const markup = host.innerHTML;
    void unmount(view);
    host.replaceChildren();
    void host.offsetHeight;
    const again = performance.now();
    host.innerHTML = markup;
    void host.offsetHeight;
    return { drawn, parsed: performance.now() - again };
  },
};

function demoTune(): { stretches: readonly Stretch[]; meter: Meter } {
  const reading = readBackup(demo);
  const tune = reading.ok
    ? reading.book.tunes.find(({ title }) => title === 'Angeline the Baker')
    : undefined;
  if (!tune) throw new Error('The demo book has no Angeline the Baker');
  const passage = { kind: 'tune', tuneId: tune.id, layerId: firstLayer(tune).id } as const;
  return { stretches: passageStretches(tune, passage), meter: tune.meter };
}
