import fc from 'fast-check';
import type { Fingering, Score, ScoreMeasure, ScoreNote } from '$lib/core/notation/score';
import { add, ZERO, type Rational } from '$lib/core/rhythm/rational';
import { FINGERS, TECHNIQUES, WEIGHTS } from '$lib/core/tune/strike';
import type { Tuning } from '$lib/core/tune/tuning';

const TUNING: Tuning = [67, 50, 55, 59, 62];
const METER = { count: 2, unit: 4 };

const duration = fc.constantFrom<Rational>([1, 16], [1, 8], [1, 4], [1, 12], [5, 16], [3, 16], [1, 20]);
const fingering = fc.record(
  {
    string: fc.constantFrom(1, 2, 3, 4, 5),
    fret: fc.integer({ min: 0, max: 22 }),
    technique: fc.constantFrom(...TECHNIQUES.filter((one) => one !== 'tie')),
    finger: fc.constantFrom(...FINGERS),
    weight: fc.constantFrom(...WEIGHTS),
  },
  { requiredKeys: ['string', 'fret', 'technique'] },
) as fc.Arbitrary<Fingering>;
const slot = fc.record({
  duration,
  rest: fc.boolean(),
  pitch: fc.integer({ min: 40, max: 90 }),
  fingering,
  chord: fc.option(fc.constantFrom('G', 'Am7', 'D/F#', 'Bbsus4', 'N.C.')),
  word: fc.option(fc.constantFrom('ho-', '<b>&"x"', 'straße')),
});
type Slot = typeof slot extends fc.Arbitrary<infer T> ? T : never;

const measure = (tab: boolean) =>
  fc
    .record({
      slots: fc.array(slot, { minLength: 1, maxLength: 6 }),
      held: fc.boolean(),
      opensRepeat: fc.boolean(),
      timesPlayed: fc.constantFrom(0, 0, 2, 3),
      ending: fc.constantFrom(null, null, [1], [2], [1, 3]),
      endsSection: fc.boolean(),
      part: fc.constantFrom(null, 'A', 'B'),
    })
    .map(({ slots, held, ...rest }): ScoreMeasure => {
      let onset: Rational = ZERO;
      const notes: ScoreNote[] = [];
      const labels: ScoreMeasure['labels'][number][] = [];
      for (const one of slots) {
        if (one.chord !== null) labels.push({ onset, kind: 'chord', text: one.chord });
        if (one.word !== null) labels.push({ onset, kind: 'word', text: one.word });
        if (!one.rest) notes.push(noteOf(one, onset, tab, held && notes.length === 0 && onset[0] === 0));
        onset = add(onset, one.duration);
      }
      const endsSection = rest.endsSection && rest.timesPlayed === 0;
      return { line: 1, column: 1, meter: METER, length: onset, notes, labels, ...rest, endsSection };
    });

function noteOf(one: Slot, onset: Rational, tab: boolean, held: boolean): ScoreNote {
  const tied = held && { tied: true as const };
  if (!tab) return { onset, duration: one.duration, pitch: one.pitch, ...tied };
  const played = held ? { ...one.fingering, technique: 'tie' as const } : one.fingering;
  const pitch = TUNING[5 - played.string]! + 2 + played.fret;
  return { onset, duration: one.duration, pitch, ...tied, fingering: played };
}

/** Scores of one voice, tab or melody, with every sign that the writer knows. */
export const writtenScore = fc.boolean().chain((tab) =>
  fc.array(measure(tab), { minLength: 1, maxLength: 8 }).map((measures): Score => ({
    ...{ number: null, title: '<script>&', key: 'A modal', meter: METER, tempo: 96.5, order: null },
    ...{ tuning: tab ? TUNING : null, capo: tab ? 2 : null, warnings: [] },
    voices: [{ name: 'Banjo & all', measures }],
  })),
);
