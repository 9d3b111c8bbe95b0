import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readAbc } from '../../../src/lib/core/notation/abc/read-abc';
import { writeAbc } from '../../../src/lib/core/notation/abc/write-abc';
import { rational } from '../../../src/lib/core/rhythm/rational';
import { drawnVoice, madeMeasure, madeNote, madeScore } from './drawn-scores';

const again = (score: ReturnType<typeof madeScore>) => readAbc(writeAbc(score)).scores[0];
const signsOf = (measures: readonly ReturnType<typeof madeMeasure>[] = []) =>
  measures.map(({ opensRepeat, timesPlayed, ending, part, length, notes }) => ({
    ...{ opensRepeat, timesPlayed, ending, part, length, notes },
  }));

describe('writeAbc', () => {
  it('writes fields, signs, accidentals and tuplets of ABC 2.1', () => {
    const triplet = [0, 1, 2].map((step) => madeNote(rational(step, 12), [1, 12], 66 + step));
    const score = madeScore(
      [
        madeMeasure(66, {
          length: [1, 4],
          notes: triplet,
          labels: [{ onset: [0, 1], kind: 'chord', text: 'G' }],
        }),
        madeMeasure(66, { opensRepeat: true, timesPlayed: 3 }),
      ],
      { key: 'G' },
    );
    expect(writeAbc(score)).toBe(
      'X:1\nT:Old Marl Pit\nM:2/4\nL:1/8\nQ:1/4=112\nK:G\n(3:2:3"G"F G ^G | |::F4 ::|\n',
    );
  });

  it.each(['|:ab:|:cd:|', '|:a|1b:|2c||d|', '(A)|:ab:|(B)c||', '|::a::|'])(
    'reads back the signs of %s',
    (drawing) => {
      const { measures } = drawnVoice(drawing);
      expect(signsOf(again(madeScore(measures))?.voices[0]?.measures)).toEqual(signsOf(measures));
    },
  );

  it('reads back the same measures', () => {
    const measure = fc
      .tuple(
        fc.uniqueArray(fc.integer({ min: 0, max: 7 }), { maxLength: 8 }),
        fc.array(fc.integer({ min: 40, max: 90 }), { minLength: 8, maxLength: 8 }),
      )
      .map(([taken, pitches]) => {
        const places = taken.toSorted((a, b) => a - b);
        const notes = places.map((place, index) =>
          madeNote(rational(place, 16), rational((places[index + 1] ?? 8) - place, 16), pitches[index] ?? 60),
        );
        return madeMeasure(60, { notes });
      });
    const keys = fc.constantFrom('C', 'G', 'A mixolydian', 'E minor', 'Bb', 'A modal', null);
    fc.assert(
      fc.property(fc.array(measure, { minLength: 1, maxLength: 6 }), keys, (measures, key) => {
        const read = again(madeScore(measures, { key }));
        expect(signsOf(read?.voices[0]?.measures)).toEqual(signsOf(measures));
        expect(read).toMatchObject({ title: 'Old Marl Pit', tempo: 112, warnings: [] });
      }),
    );
  });
});
