import { meterShape, type Meter } from '../rhythm/meter';
import type { PluckCue } from '../rhythm/pluck-cue';
import {
  add,
  compare,
  divide,
  equal,
  rational,
  subtract,
  toNumber,
  ZERO,
  type Rational,
} from '../rhythm/rational';
import type { MelodyNote } from '../tune/melody';
import type { Strike, Technique, Weight } from '../tune/strike';
import { soundingPitch, type Setup } from '../tune/tuning';
import { MELODY_STRENGTH } from './banjo';
import { melodyOnStrings } from './melody-strings';

/** What is sounded of the tab: all of it, what the hand plays, or the short string's drone alone. */
export const SOUNDED = ['both', 'melody', 'drone'] as const;
export type Sounded = (typeof SOUNDED)[number];

/** One stretch of tab: a measure, a pickup, or one side of a seam. */
export interface TabStretch {
  /** Of the whole measure, in order; `null`: no tab yet. */
  strikes: readonly Strike[] | null;
  /** What is sounded instead where there is no tab, in order. */
  melody?: readonly MelodyNote[] | undefined;
  /** In beats from the start of its measure: what lies outside is not part of the stretch. */
  from: Rational;
  to: Rational;
}

export interface PluckOptions {
  setup: Setup;
  meter: Meter;
  /** Beats per minute: what a hand does in milliseconds is turned into beats with it. */
  tempo: number;
  sounded: Sounded;
}

/** How hard each technique is struck: the thumb's drone lies under the melody (ours, by measured level). */
const STRENGTH: Record<Exclude<Technique, 'tie'>, number> = {
  strike: MELODY_STRENGTH,
  brush: 0.56,
  drone: 0.55,
  'drop-thumb': 0.65,
  'hammer-on': 0.7,
  'pull-off': 0.6,
  slide: 0.8,
};
/** Hinted at, and brought out (ours, by measured level). */
const WEIGHT: Record<Weight, number> = { ghost: 0.4, accent: 1.3 };

/** Strings of a brush besides its own: the next two long ones, open, as the tab shows it. */
const BRUSH_REACH = 2;
/** From string to string across a brush: three strings in 14 ms, under the 20 to 30 ms that part two onsets. */
const BRUSH_STEP_SEC = 0.007;
/** A finger comes down or leaves within this. */
const FINGER_SEC = 0.004;
const SLIDE_SEC = 0.09;
/** What a finger that slides adds to the note that it carries on. */
const SLID_STRENGTH = 0.45;
/** A note older than this has faded too far to slide from. */
const SLIDE_REACH_SEC = 1.5;
/** From where a slide starts that no note leads into. */
const SLIDE_FRETS = 2;
/** What is shorter than a beat is rounded to this share of one, so that places stay small fractions. */
const GRAINS_PER_BEAT = 1000;

/** The cues of some stretches played one after the other, in order, each inside the whole. */
export function plucksOf(stretches: readonly TabStretch[], options: PluckOptions): PluckCue[] {
  const cues: PluckCue[] = [];
  let start = ZERO;
  for (const { strikes, melody, from, to } of stretches) {
    /** `null` for what lies outside the stretch. */
    const placeOf = (onset: Rational): Rational | null => {
      const inMeasure = divide(onset, meterShape(options.meter).beat);
      if (compare(inMeasure, from) < 0 || compare(inMeasure, to) >= 0) return null;
      return add(start, subtract(inMeasure, from));
    };
    for (const strike of strikes ?? []) {
      const at = placeOf(strike.onset);
      if (at && isSounded(strike, options.sounded)) {
        cues.push(...strikeCues(strike, at, strikes ?? [], cues, options));
      }
    }
    if (!strikes && melody && options.sounded !== 'drone') cues.push(...melodyCues(melody, placeOf, options));
    start = add(start, subtract(to, from));
  }
  const last = subtract(start, [1, GRAINS_PER_BEAT]);
  return cues
    .map((cue) => (compare(cue.at, start) < 0 ? cue : { ...cue, at: last }))
    .sort((a, b) => compare(a.at, b.at));
}

/** The drone: the thumb on the open short string. A stopped note there is melody, but where the tab calls it a drone. */
function isSounded({ technique, string, fret }: Strike, sounded: Sounded): boolean {
  if (sounded === 'both') return true;
  const isDrone = technique === 'drone' || (string === 5 && fret === 0);
  return isDrone === (sounded === 'drone');
}

function melodyCues(
  melody: readonly MelodyNote[],
  placeOf: (onset: Rational) => Rational | null,
  { setup }: PluckOptions,
): PluckCue[] {
  return melodyOnStrings(melody, setup).flatMap(({ note, string }): PluckCue[] => {
    const at = placeOf(note.onset);
    return at ? [{ at, string, pitch: note.pitch, touch: 'nail', strength: MELODY_STRENGTH }] : [];
  });
}

function strikeCues(
  strike: Strike,
  at: Rational,
  measure: readonly Strike[],
  before: readonly PluckCue[],
  options: PluckOptions,
): PluckCue[] {
  const { string, fret, technique, weight } = strike;
  if (technique === 'tie') return [];
  const cue: PluckCue = {
    at,
    string,
    touch: technique === 'drone' || technique === 'drop-thumb' || string === 5 ? 'thumb' : 'nail',
    pitch: soundingPitch(options.setup, string, fret),
    strength: Math.min(1, STRENGTH[technique] * (weight ? WEIGHT[weight] : 1)),
  };
  switch (technique) {
    case 'brush':
      return brushCues(cue, strike, measure, options);
    case 'hammer-on':
      return [{ ...cue, touch: 'tap', glideSec: FINGER_SEC }];
    case 'pull-off':
      return [{ ...cue, touch: 'pull', glideSec: FINGER_SEC }];
    case 'slide':
      return [slideCue(cue, strike, before, options)];
    case 'strike':
    case 'drone':
    case 'drop-thumb':
      return [cue];
  }
}

/** Down across the strings: the thickest first and on its place in the beat, its own string last (common practice). */
function brushCues(
  cue: PluckCue,
  strike: Strike,
  measure: readonly Strike[],
  { setup, tempo }: PluckOptions,
): PluckCue[] {
  const taken = measure.filter(({ onset }) => equal(onset, strike.onset)).map(({ string }) => string);
  const others = ([4, 3, 2] as const).filter(
    (string) => string > strike.string && string <= strike.string + BRUSH_REACH && !taken.includes(string),
  );
  const across = others.map((string) => ({ ...cue, string, pitch: soundingPitch(setup, string, 0) }));
  return [...across, cue].map((one, index) => ({
    ...one,
    at: add(cue.at, toBeats(index * BRUSH_STEP_SEC, tempo)),
  }));
}

/** From the note that rings on the string, so as to arrive in time; without one, struck two frets off. */
function slideCue(
  cue: PluckCue,
  { fret }: Strike,
  before: readonly PluckCue[],
  { tempo }: PluckOptions,
): PluckCue {
  const left = before.findLast(({ string }) => string === cue.string);
  const sinceSec = left ? (toNumber(subtract(cue.at, left.at)) * 60) / tempo : Infinity;
  if (left && left.pitch !== cue.pitch && sinceSec > 0 && sinceSec <= SLIDE_REACH_SEC) {
    const glide = toBeats(Math.min(SLIDE_SEC, sinceSec / 2), tempo);
    const glideSec = (toNumber(glide) * 60) / tempo;
    return { ...cue, touch: 'stay', at: subtract(cue.at, glide), glideSec, strength: SLID_STRENGTH };
  }
  const fromPitch = cue.pitch + (fret >= SLIDE_FRETS ? -SLIDE_FRETS : SLIDE_FRETS);
  return { ...cue, fromPitch, glideSec: SLIDE_SEC };
}

function toBeats(seconds: number, tempo: number): Rational {
  return rational(Math.round((seconds * tempo * GRAINS_PER_BEAT) / 60), GRAINS_PER_BEAT);
}
