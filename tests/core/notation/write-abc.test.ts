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

  describe('words', () => {
    const four = [0, 1, 2, 3].map((step) => madeNote(rational(step, 8), [1, 8], 60 + step));
    const word = (step: number, text: string) => ({ onset: rational(step, 8), kind: 'word' as const, text });
    const sung = (labels: ReturnType<typeof word>[]) => madeScore([madeMeasure(60, { notes: four, labels })]);

    it('stand under their notes in a w: line (section 5.1)', () => {
      const score = sung([word(0, 'win-'), word(1, 'ter'), word(3, 'up to-day')]);
      expect(writeAbc(score)).toContain('\nC ^C D ^D |]\nw:win- ter * up~to\\-day\n');
    });

    it('that begin with no note, or that such a line cannot hold, are remarks over the music', () => {
      const score = madeScore([madeMeasure(60, { notes: four.slice(0, 1), labels: [word(1, 'wait')] })]);
      expect(writeAbc(score)).toContain('"^wait"');
      expect(writeAbc(sung([word(0, 'a|b')]))).toContain('"^a|b"C');
    });

    it('are read back where they were', () => {
      const text = fc.oneof(
        fc.string({ unit: fc.constantFrom(..."ab-~_*|% '&;"), minLength: 1, maxLength: 6 }),
        fc.constantFrom('ho-', 'straße', '&amp;', 'up to-day', '<b>'),
      );
      const words = fc.uniqueArray(fc.tuple(fc.integer({ min: 0, max: 3 }), text), {
        selector: ([step]) => step,
        minLength: 1,
      });
      fc.assert(
        fc.property(fc.array(words, { minLength: 1, maxLength: 5 }), (measures) => {
          const score = madeScore(
            measures.map((taken) =>
              madeMeasure(60, {
                notes: four,
                labels: taken
                  .map(([step, said]) => word(step, said.trim().replace(/\s+/g, ' ')))
                  .filter((label) => label.text !== '')
                  .sort((a, b) => a.onset[0] / a.onset[1] - b.onset[0] / b.onset[1]),
              }),
            ),
          );
          const labelsOf = (one = score) => one.voices[0]?.measures.map(({ labels }) => labels);
          expect(labelsOf(again(score))).toEqual(labelsOf());
        }),
        { numRuns: 200 },
      );
    });
  });
});
