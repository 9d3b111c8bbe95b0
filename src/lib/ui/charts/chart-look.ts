import { createSubscriber } from 'svelte/reactivity';

/** Colours and type of a chart, as the style sheet has them at this moment. */
export interface ChartLook {
  skin: string;
  ink: string;
  inkSoft: string;
  hair: string;
  rule: string;
  tan: string;
  tanEdge: string;
  grain: string;
  /** Width of a band's edges: 0 where its tint alone shows it. */
  bandEdge: number;
  goal: string;
  goalWidth: number;
  family: string;
  /** Of captions on the chart, in pixels: follows the reader's own text size. */
  size: number;
}

const CHANGES = ['(prefers-color-scheme: dark)', '(prefers-contrast: more)', '(forced-colors: active)'];

/** Reading this in an effect runs it again whenever the colours of the page may have changed. */
export const followColours = createSubscriber((update) => {
  const queries = CHANGES.map((query) => matchMedia(query));
  for (const query of queries) query.addEventListener('change', update);
  const theme = new MutationObserver(update);
  theme.observe(document.documentElement, { attributeFilter: ['data-theme'] });
  return () => {
    for (const query of queries) query.removeEventListener('change', update);
    theme.disconnect();
  };
});

/** Reads the look that an element has: its `--chart-...` properties and its font. */
export function lookOf(element: HTMLElement): ChartLook {
  const style = getComputedStyle(element);
  const read = (name: string) => style.getPropertyValue(`--chart-${name}`).trim();
  return {
    skin: read('skin'),
    ink: read('ink'),
    inkSoft: read('ink-soft'),
    hair: read('hair'),
    rule: read('rule'),
    tan: read('tan'),
    tanEdge: read('tan-edge'),
    grain: read('grain'),
    bandEdge: Number(read('band-edge')),
    goal: read('goal'),
    goalWidth: Number.parseFloat(read('goal-width')) || 2,
    family: style.fontFamily,
    size: Number.parseFloat(style.fontSize),
  };
}
