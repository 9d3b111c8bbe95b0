import { countInMeasures, exactBeats } from '../rhythm/click-times';
import { exactTempo } from '../rhythm/tempo-map';
import type { Pattern } from '../rhythm/patterns';
import type { PluckCue } from '../rhythm/pluck-cue';
import { add, compare, rational, subtract, ZERO, type Rational } from '../rhythm/rational';
import type { Segment } from '../rhythm/segment';
import type { Passage } from '../tune/passage';
import { passageStretches, type Stretch } from '../tune/places';
import type { Pickup, Tune } from '../tune/tune';
import { plucksOf, type PluckOptions, type Sounded } from './plucks';

/** The tempos at which a passage can be heard, in beats per minute. */
export const HEARING_TEMPO_MIN = 30;
export const HEARING_TEMPO_MAX = 240;

/** A passage as it is to be heard. */
export interface Hearing {
  tune: Tune;
  passage: Passage;
  /** Beats of the tune's meter per minute. */
  tempo: number;
  sounded: Sounded;
  /** The click beside the string; `silent`: none, but in the count-in. */
  pattern: Pattern;
  /** Measures counted in: 0, 1 or 2. */
  countIn: number;
  /** The count-in is counted aloud. */
  spokenCount?: boolean;
  /** How often it is played. */
  passes: number;
  /** Call and answer: after each pass the same time again, in which the string is still. */
  answers: boolean;
  /** The number of the first pass; 1 when left out. From 2 on there is no count-in: it follows what plays. */
  firstPass?: number;
}

/** From the hand on the strings to the answer. */
const DAMP_BEFORE_SEC = 0.03;

/**
 * What the engine plays, back to back: `count-in`, then `pass-1`, in call and answer `answer-1`, `pass-2` and so on. A
 * measure without tab sounds its melody; without that too it is silent but for the click (`tabMissing` says so); the pickup sounds in the last beats of the count-in.
 * All of it is plain data made from the tune as it is now: after an edit, replace what has not started by what this gives
 * for the edited tune and the next pass. Empty when the passage is no longer in the tune. Throws a RangeError for a
 * tempo, a count-in or a number of passes out of range.
 */
export function hearingSegments(hearing: Hearing): Segment[] {
  checkHearing(hearing);
  const { tune, passage, passes, answers, firstPass = 1 } = hearing;
  const stretches = passageStretches(tune, passage);
  if (stretches.length === 0) return [];
  const options: PluckOptions = {
    setup: tune,
    meter: tune.meter,
    tempo: exactTempoNumber(hearing.tempo),
    sounded: hearing.sounded,
  };
  const pass = passSegment(hearing, stretches);
  const plucks = stretchPlucks(stretches, options);
  const call = answers
    ? [...plucks, ...dampCues(stretches, hearing.tempo)].sort((a, b) => compare(a.at, b.at))
    : plucks;
  const turns = Array.from({ length: passes }, (_, index): Segment[] => {
    const number = firstPass + index;
    const played: Segment = { ...pass, id: `pass-${number}`, plucks: call };
    return answers ? [played, { ...pass, id: `answer-${number}` }] : [played];
  });
  const countIn = firstPass === 1 ? countInSegments(hearing, stretches, options) : [];
  return [...countIn, ...turns.flat()];
}

function checkHearing({ tempo, countIn, passes, firstPass = 1 }: Hearing): void {
  if (!(tempo >= HEARING_TEMPO_MIN && tempo <= HEARING_TEMPO_MAX)) {
    throw new RangeError(
      `A passage can be heard at ${HEARING_TEMPO_MIN} to ${HEARING_TEMPO_MAX} beats per minute: saw ${tempo}`,
    );
  }
  if (![0, 1, 2].includes(countIn)) {
    throw new RangeError(`A count-in has 0, 1 or 2 measures: saw ${countIn}`);
  }
  if (
    ![passes, firstPass].every((number) => Number.isInteger(number) && number >= 1 && number <= 1_000_000)
  ) {
    throw new RangeError(`Passes are counted from 1: saw ${passes} passes from ${firstPass} on`);
  }
}

function exactTempoNumber(tempo: number): number {
  const [tenths, by] = exactTempo(tempo);
  return tenths / by;
}

function stretchPlucks(stretches: readonly Stretch[], options: PluckOptions): PluckCue[] {
  const tab = stretches.map(({ figure, fromBeat, toBeat }) => ({
    strikes: figure.strikes,
    melody: figure.melody,
    from: halves(fromBeat),
    to: halves(toBeat),
  }));
  return plucksOf(tab, options);
}

/** A place in a measure: places lie on halves of a beat, as measures are that long. */
function halves(beats: number): Rational {
  return beats === 0 ? ZERO : exactBeats(beats);
}

function passSegment(
  { tune, passage, tempo, pattern }: Hearing,
  stretches: readonly Stretch[],
): Omit<Segment, 'id'> {
  const parts = stretches.flatMap(({ index, fromBeat }, place) =>
    index === 0 && fromBeat === 0 ? [place] : [],
  );
  return {
    kind: 'pass',
    meter: tune.meter,
    tempo,
    pattern,
    measures: stretches.map(({ fromBeat, toBeat }) => toBeat - fromBeat),
    ...((stretches[0]?.fromBeat ?? 0) > 0 ? { pickup: true } : {}),
    ...(passage.kind === 'tune' ? { parts } : {}),
  };
}

function dampCues(stretches: readonly Stretch[], tempo: number): PluckCue[] {
  const end = stretches.reduce<Rational>(
    (sum, { fromBeat, toBeat }) => add(sum, subtract(halves(toBeat), halves(fromBeat))),
    ZERO,
  );
  const at = subtract(end, rational(Math.ceil(DAMP_BEFORE_SEC * tempo * 20), 1200));
  return ([1, 2, 3, 4, 5] as const).map((string) => ({ at, string, pitch: 60, touch: 'damp' }));
}

function countInSegments(
  { tune, passage, tempo, countIn, pattern, spokenCount = false }: Hearing,
  stretches: readonly Stretch[],
  options: PluckOptions,
): Segment[] {
  const pickup = startsTheTune(tune, passage, stretches) ? tune.pickup : null;
  const leadIn = stretches[0]?.fromBeat ?? 0;
  const common = { id: 'count-in', kind: 'count-in', meter: tune.meter, tempo, pattern: 'beat' } as const;
  if (countIn === 0) {
    if (!pickup) return [];
    return [
      {
        ...common,
        pattern,
        measures: [pickup.beats],
        pickup: true,
        plucks: pickupPlucks(pickup, pickup.beats, options),
      },
    ];
  }
  const measures = countInMeasures(tune.meter, countIn, leadIn);
  const beats = measures.reduce((sum, measure) => sum + measure, 0);
  const plucks = pickup && pickupPlucks(pickup, beats, options);
  return [{ ...common, measures, ...(spokenCount ? { spoken: true } : {}), ...(plucks ? { plucks } : {}) }];
}

/** The pickup leads into the first measure of the tune, whatever passage begins there, but not into a figure by itself. */
function startsTheTune(tune: Tune, passage: Passage, [first]: readonly Stretch[]): boolean {
  if (passage.kind === 'figure' || passage.kind === 'seam') return false;
  return first?.index === 0 && first.part === tune.form[0];
}

function pickupPlucks(
  { beats, strikes, melody }: Pickup,
  countInBeats: number,
  options: PluckOptions,
): PluckCue[] {
  const cues = plucksOf([{ strikes, melody, from: ZERO, to: halves(beats) }], options);
  const before = subtract(halves(countInBeats), halves(beats));
  return cues.map((cue) => ({ ...cue, at: add(cue.at, before) }));
}
