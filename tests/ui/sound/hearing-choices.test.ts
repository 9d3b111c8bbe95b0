import { flushSync, mount, unmount } from 'svelte';
import { afterEach, expect, it } from 'vitest';
import HearingChoices from '../../../src/lib/ui/sound/HearingChoices.svelte';
import StringTones from '../../../src/lib/ui/sound/StringTones.svelte';
import { referenceTones } from '../../../src/lib/core/tune/retune';
import '../../../src/lib/ui/tokens.css';
import '../../../src/lib/ui/base.css';

const host = document.createElement('div');
document.body.append(host);
let shown: Record<string, unknown> | null = null;

afterEach(async () => {
  if (shown) await unmount(shown);
  shown = null;
});

const choices = { tempo: 'goal', times: 'once', sounded: 'both', click: false } as const;
const radios = () => [...host.querySelectorAll<HTMLInputElement>('input[type=radio]')];

function showChoices(hasTab: boolean, onchoose: (change: object) => void = () => undefined): void {
  shown = mount(HearingChoices, { target: host, props: { choices, goal: 112, slow: 70, hasTab, onchoose } });
  flushSync();
}

it('offers what a passage with tab can do, and tells each choice alone', () => {
  const told: object[] = [];
  showChoices(true, (change) => told.push(change));
  for (const value of ['slow', 'answers', 'drone', 'on']) {
    radios()
      .find((radio) => radio.value === value)
      ?.click();
  }
  expect(told).toEqual([{ tempo: 'slow' }, { times: 'answers' }, { sounded: 'drone' }, { click: true }]);
});

it('offers a passage without tab only what a click can do', () => {
  showChoices(false);
  expect(radios().map(({ value }) => value)).toEqual(['goal', 'slow', 'once', 'looped']);
});

it('hangs the strings as a tuning is written, each a touch of 48 pixels and more on the narrowest phone', () => {
  host.style.width = '288px';
  const setup = { tuning: [67, 50, 55, 59, 62], capo: 2, spike: 2 } as const;
  const props = {
    tones: referenceTones(setup),
    sounding: 3 as const,
    ontone: () => undefined,
    onstop: () => undefined,
  };
  shown = mount(StringTones, { target: host, props });
  flushSync();
  const strings = [...host.querySelectorAll('button')];
  // gDGBD with a capo at the second fret sounds as aEAC#E (common practice)
  expect(strings.map((button) => button.querySelector('b')?.textContent).join('')).toBe('aEAC#E');
  expect(strings.map((button) => button.getAttribute('aria-pressed'))).toEqual([
    'false',
    'false',
    'true',
    'false',
    'false',
  ]);
  for (const button of strings) {
    const { width, height } = button.getBoundingClientRect();
    expect(Math.min(width, height)).toBeGreaterThanOrEqual(48);
  }
});
