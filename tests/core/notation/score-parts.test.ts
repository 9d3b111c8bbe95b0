import { describe, expect, it } from 'vitest';
import { readingOfScore } from '../../../src/lib/core/notation/score-reading';
import { rational } from '../../../src/lib/core/rhythm/rational';
import type { Reading } from '../../../src/lib/core/notation/reading';
import type { ScoreMeasure } from '../../../src/lib/core/notation/score';
import { drawnVoice, madeMeasure, madeNote, madeScore } from './drawn-scores';

/** Each part as the letters of its measures; `.` for half a beat of silence where a measure is not full. */
function shown({ form, parts, pickup }: Reading): string {
  const letter = (pitch: number) => String.fromCharCode(pitch);
  const drawn = parts.map(({ name, measures }) => {
    const inside = measures.map(({ melody = [], beats }) => {
      const notes = melody.map(({ pitch, tied }) => (tied ? '-' : '') + letter(pitch)).join('');
      return beats === 2 ? notes : `${notes}(${beats})`;
    });
    return `${name}=${inside.join(' ')}`;
  });
  const before = pickup ? `${(pickup.melody ?? []).map(({ pitch }) => letter(pitch)).join('')}> ` : '';
  return `${before}${form} ${drawn.join(' ')}`;
}

const read = (drawing: string, order: string | null = null) =>
  readingOfScore(madeScore(drawnVoice(drawing).measures, { order: order === null ? null : [...order] }));

/** Measures of a drawing, those named in `lengths` as many eighths long. */
function cut(measures: readonly ScoreMeasure[], lengths: Record<string, number>): ScoreMeasure[] {
  return measures.map((measure) => {
    const [note] = measure.notes;
    const halves = lengths[String.fromCharCode(note?.pitch ?? 0)] ?? 4;
    const length = rational(halves, 8);
    return { ...measure, length, notes: [madeNote([0, 1], length, note?.pitch ?? 0)] };
  });
}

const readCut = (drawing: string, lengths: Record<string, number>) =>
  readingOfScore(madeScore(cut(drawnVoice(drawing).measures, lengths)));

describe('parts and form', () => {
  it.each([
    ['repeats as letters of the form', '|:ab:|:cd:|', 'AABB A=a b B=c d'],
    ['double bars as ends of parts', '|ab||cd||', 'AB A=a b B=c d'],
    ['music that is written out again as the same part', '|ab||cd||ab||', 'ABA A=a b B=c d'],
    ['endings that differ as one longer part', '|:a|1b:|2c||:d:|', 'ABB A=a b a c B=d'],
    ['endings for two times each as the round of them twice', '|:a|1,3b:|2,4c||', 'AA A=a b a c'],
    ['a named part with its letter', '(C)|:a:|(B)b||', 'CCB C=a B=b'],
    ['a named part of two sections as one', '(B)|:a:|b||(A)c||', 'BA B=a a b A=c'],
    ['a part without a name by a free letter', '|a||(A)b||', 'BA B=a A=b'],
  ])('reads %s', (_, drawing, expected) => expect(shown(read(drawing))).toBe(expected));

  it('plays parts in the order that the source gives', () => {
    expect(shown(read('(A)a||(B)b||', 'ABBA'))).toBe('ABBA A=a B=b');
    const { form, warnings } = read('(A)a||(B)b||(C)c||', 'AB');
    expect(form).toBe('AB');
    expect(warnings.map(({ message }) => message)).toEqual([
      'Line 1, column 1: part C is not in the order of parts; left out.',
    ]);
  });

  it('shares measures that are equal', () => {
    const { parts } = read('|aba||b||');
    expect(parts.map(({ measures }) => measures.map(({ sameAs }) => sameAs))).toEqual([
      [null, null, { part: 'A', index: 0 }],
      [{ part: 'A', index: 1 }],
    ]);
  });

  it('cuts what is longer than a tune may be, and says so', () => {
    const long = madeScore(Array.from({ length: 900 }, (_, index) => madeMeasure(40 + (index % 50))));
    const { parts, form, warnings } = readingOfScore(long);
    expect([form, parts.map(({ measures }) => measures.length)]).toEqual(['ABC', [400, 400, 100]]);
    expect(warnings.at(-1)?.message).toMatch(/cut into the parts A, B, C\.$/);
    const often = read('(A)|::a::|', 'A'.repeat(40));
    expect(often.form).toHaveLength(64);
    expect(often.warnings.at(-1)?.message).toMatch(/played 120 times in all; the form ends after 64\.$/);
    const many = madeScore(
      Array.from({ length: 30 }, (_, index) => madeMeasure(40 + index, { endsSection: true })),
    );
    expect(readingOfScore(many).form).toBe('ABCDEFGHIJKLMNOPQRSTUVWXYZ');
    expect(readingOfScore(many).warnings.at(-1)?.message).toMatch(/26 parts at most/);
  });
});

describe('measures that signs have cut', () => {
  // pickups and the short measures that make up for them are common practice in this music
  it.each([
    ['a pickup', '|pab|', { p: 1 }, 'p> A A=a b'],
    ['a pickup that the last measure makes up for', '|pab|', { p: 1, b: 3 }, 'p> A A=a b'],
    ['a pickup inside the repeat', '|:pab:|', { p: 1, b: 3 }, 'p> AA A=a bp'],
    ['a pickup before the repeat', '|p|:ab:|', { p: 1, b: 3 }, 'p> AA A=a b'],
    ['lead-ins of both parts', '|:pab:|:qcd:|', { p: 1, b: 3, q: 1, d: 3 }, 'p> AABB A=a bp B=c dq'],
    ['a part without a lead-in', '|:pab:|:cd:|', { p: 1, b: 3 }, 'p> AABB A=a bp B=c d'],
    ['a lead-in between two signs', '|ab||q|:cd:|', { q: 1, b: 3, d: 3 }, 'ABB A=a bq B=c d(1.5)'],
    ['a measure cut by a double bar', '|ab||cd|', { b: 2, c: 2 }, 'AB A=a bc B=d'],
    ['a measure cut by an ending', '|:ab|1c:|2d||', { b: 2, c: 2, d: 2 }, 'A A=a bc a bd'],
    ['short measures between plain bar lines as crooked ones', '|abcd|', { b: 2, c: 2 }, 'A A=a b(1) c(1) d'],
    ['a lead-in that nothing makes up for', '|ab||qcd|', { q: 1 }, 'AB A=a b B=q(0.5) c d'],
    ['a pickup that is repeated after a full measure', '|:pab:|', { p: 1 }, 'AA A=p(0.5) a b'],
  ])('reads %s', (_, drawing, lengths, expected) => expect(shown(readCut(drawing, lengths))).toBe(expected));

  it('says where a lead-in is left out because the repeat has another', () => {
    const { warnings } = readCut('|:pab:|:qcd:|', { p: 1, b: 3, q: 1, d: 3 });
    expect(warnings.map(({ message }) => message)).toEqual([expect.stringMatching(/lead-in differs/)]);
    expect(readCut('|:pab:|:pcd:|', { p: 1, b: 3, d: 3 }).warnings).toEqual([]);
  });

  it('sets a pickup that is no half beat at the end of one', () => {
    const meter = { count: 6, unit: 8 };
    const { pickup, parts } = readingOfScore(
      madeScore([madeMeasure(60, { length: [1, 8] }), madeMeasure(62, { length: [3, 4] })], { meter }),
    );
    expect(pickup).toEqual({
      beats: 0.5,
      strikes: null,
      melody: [{ onset: [1, 16], duration: [1, 8], pitch: 60 }],
    });
    expect(parts[0]?.measures).toHaveLength(1);
  });
});

describe('meters', () => {
  const beatsIn = (count: number, unit: number) => {
    const length = rational(count, unit);
    const measures = [madeMeasure(60, { length })];
    const { meter, parts, warnings } = readingOfScore(madeScore(measures, { meter: { count, unit } }));
    return { meter, beats: parts[0]?.measures[0]?.beats, says: warnings.length };
  };
  // which notes carry the beat: common practice
  it.each([
    [2, 2, '2/2', 2, 0],
    [4, 4, '4/4', 4, 0],
    [9, 8, '9/8', 3, 0],
    [12, 8, '6/8', 4, 1],
    [3, 8, '6/8', 1, 1],
    [5, 8, '2/4', 2.5, 1],
    [7, 8, '2/4', 3.5, 1],
    [5, 4, '4/4', 5, 1],
    [6, 4, '4/4', 6, 1],
    [3, 2, '2/2', 3, 1],
  ] as const)('reads %i/%i in %s with %f beats', (count, unit, meter, beats, says) =>
    expect(beatsIn(count, unit)).toEqual({ meter, beats, says }),
  );

  it('reads a change of meter as a crooked measure, and says what is in no half beats', () => {
    const three = { count: 3, unit: 4 };
    const score = madeScore([
      madeMeasure(60),
      madeMeasure(62, { meter: three, length: [3, 4] }),
      madeMeasure(64, { meter: { count: 5, unit: 16 }, length: [5, 16] }),
    ]);
    const { parts, warnings } = readingOfScore(score);
    expect(parts[0]?.measures.map(({ beats }) => beats)).toEqual([2, 3, 1.5]);
    expect(warnings.map(({ message }) => message)).toEqual([
      'Line 1, column 1: this measure does not come out in half beats of 2/4; it is kept 1.5 beats long, with a rest at its end.',
    ]);
  });

  it('cuts a measure where bar lines are missing, and ties the notes', () => {
    const long = madeMeasure(60, {
      length: [5, 4],
      notes: [madeNote([0, 1], [1, 4], 62), madeNote([1, 4], [1, 1], 64)],
    });
    const { parts, warnings } = readingOfScore(madeScore([long, madeMeasure(67)]));
    expect(parts[0]?.measures.map(({ melody, beats }) => [beats, melody])).toEqual([
      [
        2,
        [
          { onset: [0, 1], duration: [1, 4], pitch: 62 },
          { onset: [1, 4], duration: [1, 4], pitch: 64 },
        ],
      ],
      [2, [{ onset: [0, 1], duration: [1, 2], pitch: 64, tied: true }]],
      [1, [{ onset: [0, 1], duration: [1, 4], pitch: 64, tied: true }]],
      [2, [{ onset: [0, 1], duration: [1, 2], pitch: 67 }]],
    ]);
    expect(warnings).toHaveLength(1);
    const free = readingOfScore(madeScore([long], { meter: null }));
    expect([free.meter, free.parts[0]?.measures.map(({ beats }) => beats)]).toEqual(['4/4', [5]]);
  });
});

describe('fingering', () => {
  const fingering = { string: 1, fret: 2, technique: 'strike' } as const;
  const fingered = (change = {}) => [madeNote([0, 1], [1, 2], 64, { fingering, ...change })];

  it('makes tab of measures whose notes all say string and fret, melody of the others', () => {
    const score = madeScore([
      madeMeasure(64, { notes: fingered() }),
      madeMeasure(64, { notes: fingered({ tied: true }) }),
      madeMeasure(65),
      madeMeasure(65, { notes: [] }),
    ]);
    const { parts, warnings } = readingOfScore(score);
    const place = { onset: [0, 1], duration: [1, 2], string: 1, fret: 2 };
    expect(parts[0]?.measures).toEqual([
      { beats: 2, strikes: [{ ...place, technique: 'strike' }], sameAs: null },
      { beats: 2, strikes: [{ ...place, technique: 'tie' }], sameAs: null },
      { beats: 2, strikes: null, melody: [expect.objectContaining({ pitch: 65 })], sameAs: null },
      { beats: 2, strikes: [], sameAs: null },
    ]);
    expect(warnings.map(({ message }) => message)).toEqual([expect.stringMatching(/kept as melody/)]);
  });

  it('keeps labels, shortened to what a label may be', () => {
    const labels = [
      { onset: [1, 4], kind: 'word', text: ` ${'la'.repeat(50)} ` },
      { onset: [0, 1], kind: 'chord', text: 'G' },
      { onset: [0, 1], kind: 'word', text: '  ' },
    ] as const;
    const [measure] = readingOfScore(madeScore([madeMeasure(60, { labels })])).parts[0]?.measures ?? [];
    expect(measure?.labels).toEqual([
      { onset: [0, 1], kind: 'chord', text: 'G' },
      { onset: [1, 4], kind: 'word', text: 'la'.repeat(30) },
    ]);
  });
});

it('says when there is nothing', () => {
  expect(readingOfScore(madeScore([]))).toMatchObject({ form: '', parts: [], title: 'Old Marl Pit' });
  expect(readingOfScore(madeScore([])).warnings).toHaveLength(1);
});
