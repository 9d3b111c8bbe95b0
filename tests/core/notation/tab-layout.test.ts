import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Box } from '../../../src/lib/core/notation/tab-ink';
import { beatNumerals, tabLayout, type TabLayout } from '../../../src/lib/core/notation/tab-layout';
import type { Stretch } from '../../../src/lib/core/tune/places';
import { measureAt, METER, strikeAt } from './stretches';

const plain = (index: number, beats = 2) =>
  measureAt(
    index,
    Array.from({ length: beats }, (_, beat) => [
      strikeAt(beat * 4, 1, 2),
      strikeAt(beat * 4 + 2, 1, 0, 'brush'),
      strikeAt(beat * 4 + 3, 5, 0, 'drone'),
    ]).flat(),
    beats,
  );
const many = (count: number) => Array.from({ length: count }, (_, index) => plain(index));
const measuresPerLine = ({ lines }: TabLayout) => lines.map(({ labels }) => labels.length);
/** Where the bar lines of a line stand. */
const barsOf = ({ bars }: TabLayout['lines'][number]) =>
  [...bars.matchAll(/M([\d.]+) /g)].map(([, x]) => Number(x));
const overlap = (a: Box, b: Box) =>
  a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;

describe('one measure on a phone', () => {
  const layout = tabLayout([plain(0)], METER, { width: 390 });
  const line = layout.lines[0]!;

  it('has the sizes that are read from a metre (LOOK.md: fret numbers 30 px at 390)', () => {
    expect(layout).toMatchObject({ width: 390, fretSize: 30, wordSize: 14 });
    expect(layout.height).toBeLessThan(200);
    expect(layout.lines).toHaveLength(1);
  });

  it('has five strings, the first on top, and a bar line at each end', () => {
    expect(line.strings).toHaveLength(5);
    expect([...line.strings].sort((a, b) => a - b)).toEqual(line.strings);
    expect(barsOf(line)).toEqual([1, 389]);
    expect(line.ink.notes[0]!.y).toBeLessThan(line.ink.notes.at(-1)!.y);
  });

  it('draws a brush as an arrow and the rest as numbers, with the count below (common practice)', () => {
    expect(line.ink.brushes.match(/V/g)).toHaveLength(2);
    expect(line.ink.notes.map(({ text }) => text)).toEqual(['2', '0', '2', '0']);
    expect(line.counts.map(({ text }) => text)).toEqual(['1', '2']);
    expect(line.between.map(({ text }) => text)).toEqual(['e', '&', 'a', 'e', '&', 'a']);
    expect(tabLayout([plain(0)], METER, { width: 390, counted: false }).lines[0]!.counts).toEqual([]);
  });

  it('marks techniques by their letters, an accent by its sign, a ghost by parentheses', () => {
    const { ink } = tabLayout(
      [
        measureAt(0, [
          { ...strikeAt(0, 1, 2), weight: 'accent', finger: 2 },
          strikeAt(1, 1, 3, 'hammer-on'),
          { ...strikeAt(2, 1, 2, 'pull-off'), weight: 'accent' },
          strikeAt(3, 2, 1, 'drop-thumb'),
          { ...strikeAt(4, 3, 2), weight: 'ghost' },
          strikeAt(5, 3, 4, 'slide'),
          strikeAt(6, 3, 4, 'tie'),
        ]),
      ],
      METER,
      { width: 390 },
    ).lines[0]!;
    expect(ink.marks.map(({ text }) => text)).toEqual(['>', 'H', 'P >', 'D', 'S']);
    expect(ink.notes.map(({ text }) => text)).toEqual(['2', '3', '2', '1', '(2)', '4']);
    expect(ink.fingers.map(({ text }) => text)).toEqual(['2']);
    // hammer-on, pull-off, slide and tie each hang on the note before
    expect(ink.arcs.match(/M/g)).toHaveLength(4);
  });

  it('puts chords over and words under their places', () => {
    const place = plain(0);
    const labels = [
      { onset: [0, 1], kind: 'chord', text: 'G' },
      { onset: [1, 4], kind: 'word', text: 'hen' },
    ] as const;
    const written = tabLayout([{ ...place, measure: { ...place.measure, labels } }], METER, { width: 390 });
    const [{ chords, words, strings }] = written.lines as [(typeof written.lines)[number]];
    expect(chords.map(({ text }) => text)).toEqual(['G']);
    expect(words.map(({ text }) => text)).toEqual(['hen']);
    expect(chords[0]!.y).toBeLessThan(strings[0]!);
    expect(words[0]!.y).toBeGreaterThan(strings[4]!);
    expect(words[0]!.y).toBeLessThan(written.height);
  });

  it('tints the first half of a beat, in the columns of the beat strip', () => {
    expect(layout.beats.map(({ x, width }) => [x, width])).toEqual([
      [0, 97.5],
      [195, 97.5],
    ]);
  });

  it('keeps a two-digit number clear of the bar line', () => {
    const wide = tabLayout([measureAt(0, [strikeAt(0, 1, 12)])], METER, { width: 390 });
    expect(wide.lines[0]!.ink.notes[0]!.plate.x).toBeGreaterThan(3);
  });
});

describe('several measures', () => {
  it('reflow by the room there is', () => {
    expect(measuresPerLine(tabLayout(many(2), METER, { width: 390 }))).toEqual([1, 1]);
    expect(measuresPerLine(tabLayout(many(2), METER, { width: 800 }))).toEqual([2]);
    expect(measuresPerLine(tabLayout(many(4), METER, { width: 390 }))).toEqual([2, 2]);
    expect(measuresPerLine(tabLayout(many(8), METER, { width: 1280 }))).toEqual([4, 4]);
    expect(measuresPerLine(tabLayout(many(16), METER, { width: 1280, compact: true }))).toEqual([8, 8]);
  });

  it('give a longer measure more width, at the same width of slot', () => {
    const { lines } = tabLayout([plain(0), plain(1, 3), plain(2), plain(3)], METER, { width: 390 });
    const [first, second] = lines;
    expect(first!.end).toBeCloseTo(390);
    expect(barsOf(first!)[1]).toBeCloseTo(390 * (2 / 5));
    expect(second!.end).toBeCloseTo(390 * (4 / 5));
  });

  it('draw a seam on one line with its bar line in the middle, without labels', () => {
    const seam: Stretch[] = [
      { ...plain(0), fromBeat: 1 },
      { ...plain(1), toBeat: 1 },
    ];
    const layout = tabLayout(seam, METER, { width: 390 });
    expect(layout.lines).toHaveLength(1);
    expect(barsOf(layout.lines[0]!)).toEqual([195]);
    expect(layout.lines[0]!.labels).toEqual([]);
    expect(layout.lines[0]!.ink.notes).toHaveLength(4);
    expect(beatNumerals(seam)).toEqual([2, 1]);
  });

  it('stand between repeat signs when they are played more than once', () => {
    const { lines } = tabLayout(many(4), METER, { width: 390, times: 2 });
    expect(lines.map(({ heavy }) => heavy !== '')).toEqual([true, true]);
    expect(tabLayout(many(4), METER, { width: 390 }).lines.every(({ heavy }) => heavy === '')).toBe(true);
    const thrice = tabLayout(many(2), METER, { width: 800, times: 3 });
    expect(thrice.lines[0]!.labels.map(({ text }) => text)).toContain('×3');
  });

  it('are parted by two bar lines where another part begins', () => {
    const parts = [plain(0), { ...plain(0), part: 'B' }];
    expect(barsOf(tabLayout(parts, METER, { width: 800 }).lines[0]!)).toEqual([1, 400, 395, 799]);
  });

  it('each have a box of their own to be chosen by', () => {
    const { measures, height } = tabLayout(many(4), METER, { width: 400 });
    expect(measures.map(({ x, width }) => [x, width])).toEqual([
      [0, 200],
      [200, 200],
      [0, 200],
      [200, 200],
    ]);
    expect(measures.at(-1)!.y + measures.at(-1)!.height).toBe(height);
  });

  it('say where there is no tab, and draw nothing for no measures', () => {
    const layout = tabLayout([measureAt(0, null)], METER, { width: 390 });
    expect(layout.lines[0]!.missing.map(({ text }) => text)).toEqual(['no tab yet']);
    expect(tabLayout([], METER, { width: 390 }).lines).toEqual([]);
  });

  it('keep everything inside, numbers apart, and one column a beat, whatever the width', () => {
    const frets = fc.array(fc.integer({ min: 0, max: 22 }), { minLength: 8, maxLength: 8 });
    fc.assert(
      fc.property(
        fc.array(frets, { minLength: 1, maxLength: 12 }),
        fc.integer({ min: 320, max: 1600 }),
        fc.boolean(),
        (measures, width, compact) => {
          const stretches = measures.map((row, index) =>
            measureAt(
              index,
              row.map((fret, slot) => strikeAt(slot, ((fret % 5) + 1) as 1, fret)),
            ),
          );
          const layout = tabLayout(stretches, METER, { width, compact });
          expect(layout.beats).toHaveLength(stretches.length * 2);
          for (const { ink, counts, strings } of layout.lines) {
            const plates = ink.notes.map(({ plate }) => plate);
            const outside = plates.filter(
              ({ x, y, width: w, height }) =>
                x < 0 || y < 0 || x + w > layout.width || y + height > layout.height,
            );
            expect(outside).toEqual([]);
            expect(
              plates.filter((plate, index) => plates[index + 1] && overlap(plate, plates[index + 1]!)),
            ).toEqual([]);
            expect([...counts, { y: strings[4]! }].every(({ y }) => y < layout.height)).toBe(true);
          }
        },
      ),
      { numRuns: 100 },
    );
  });
});
