import axe from 'axe-core';
import { flushSync, mount, unmount } from 'svelte';
import { afterEach, describe, expect, it } from 'vitest';
import BeatStrip from '../../../src/lib/ui/tab/BeatStrip.svelte';
import TabView from '../../../src/lib/ui/tab/TabView.svelte';
import '../../../src/lib/ui/tokens.css';
import { measureAt, METER, strikeAt } from '../../core/notation/stretches';

const measure = (index: number) =>
  measureAt(index, [strikeAt(0, 1, 2), strikeAt(2, 1, 0, 'brush'), strikeAt(3, 5, 0, 'drone')]);

let shown: Record<string, unknown> | null = null;
const host = document.createElement('div');
document.body.append(host);

function show(props: Partial<Parameters<typeof TabView>[1]>) {
  host.style.width = '390px';
  shown = mount(TabView, {
    target: host,
    props: { stretches: [measure(0)], meter: METER, hidden: false, ...props },
  });
  flushSync();
}

afterEach(async () => {
  if (shown) await unmount(shown);
  shown = null;
});

describe('TabView', () => {
  it('shows frets at 30 px on a phone, under a name in words', () => {
    show({});
    const [frets, ...more] = host.querySelectorAll('.fret');
    expect(more).toEqual([]);
    expect(frets?.textContent).toBe('20');
    expect(frets?.getAttribute('x')?.split(' ')).toHaveLength(2);
    expect(frets && getComputedStyle(frets).fontSize).toBe('30px');
    expect(host.querySelector('svg')?.getAttribute('aria-label')).toBe(
      'Tab: beat one: strike first string second fret; and: brush from first string open; a: drone',
    );
  });

  it('hides the notes, not the lines, and shows them for a peek', () => {
    show({ hidden: true });
    expect(host.querySelectorAll('.fret, .word')).toHaveLength(0);
    expect(host.querySelector('.brush')).toBeNull();
    expect(host.querySelector('.string')?.getAttribute('d')?.match(/M/g)).toHaveLength(4);
    expect(host.querySelector('.short')).not.toBeNull();
    expect(host.querySelector('.cover')?.textContent).toBe('hidden');
    expect(host.querySelector('svg')?.getAttribute('aria-label')).toBe('Tab hidden');
  });

  it('shows them for a peek', () => {
    show({ hidden: true, peek: true });
    expect(host.querySelector('.fret')?.textContent).toBe('20');
  });

  it('tints the column of the beat that sounds', () => {
    show({ nowSlot: 1 });
    expect(host.querySelector('.now')?.getAttribute('x')).toBe('195');
  });

  it('lets measures be chosen by touch and by key, named in words, and passes axe', async () => {
    const chosen: number[] = [];
    show({
      stretches: [0, 1, 2].map(measure),
      onpick: (index: number) => chosen.push(index),
      picked: new Set([1]),
    });
    const buttons = [...host.querySelectorAll('button')];
    expect(buttons.map((button) => button.getAttribute('aria-pressed'))).toEqual(['false', 'true', 'false']);
    expect(buttons[2]?.getAttribute('aria-label')).toMatch(/^A3, beat one: strike/);
    expect(buttons.every((button) => button.getBoundingClientRect().height >= 48)).toBe(true);
    buttons[2]?.focus();
    expect(document.activeElement).toBe(buttons[2]);
    buttons[2]?.click();
    expect(chosen).toEqual([2]);
    const { violations } = await axe.run(host);
    expect(violations.map(({ id }) => id)).toEqual([]);
  });

  it('draws a melody without tab on a staff, and says so', () => {
    const place = measureAt(0, null);
    const melody = [{ onset: [0, 1], duration: [1, 4], pitch: 67 }] as const;
    show({ stretches: [{ ...place, figure: { ...place.figure, melody } }] });
    expect(host.querySelector('.staff')).not.toBeNull();
    expect(host.querySelector('.label')?.textContent).toBe('melody, no tab yet');
    expect(host.querySelector('svg')?.getAttribute('aria-label')).toBe(
      'Tab: melody, no tab yet, beat one: G 4',
    );
  });

  it('lists many measures one by one, and passes axe', async () => {
    show({ stretches: [0, 1, 2].map(measure) });
    await expect.poll(() => host.querySelectorAll('li').length).toBe(3);
    const { violations } = await axe.run(host);
    expect(violations.map(({ id }) => id)).toEqual([]);
  });
});

describe('BeatStrip', () => {
  it('marks the beat that sounds, and counts a seam as its measures do', () => {
    shown = mount(BeatStrip, {
      target: host,
      props: { beats: 2, division: 2, now: 0, resting: false, numerals: [2, 1] },
    });
    flushSync();
    expect(host.querySelector('.beat.now')?.textContent).toBe('2');
    expect([...host.querySelectorAll('.long')].map((block) => block.getBoundingClientRect().left)).toEqual(
      [0, 195].map((x) => x + host.getBoundingClientRect().left),
    );
    expect(host.querySelector('[role=img]')?.getAttribute('aria-label')).toBe('Beat 2');
  });
});
