import { add, compare, equal, rational, subtract, ZERO, type Rational } from '../rhythm/rational';
import type { MeasureLabel } from '../tune/tune';
import { playOrder } from './play-order';
import type { Score, ScoreMeasure, ScoreMeter, ScoreNote, ScoreVoice } from './score';

/** A measure as it is played: what bar lines and repeat signs cut in two is whole again. */
export interface Bar {
  length: Rational;
  notes: readonly ScoreNote[];
  labels: readonly MeasureLabel[];
  /** Where it begins in the source. */
  line: number;
  column: number;
}

/** One time through a section of the score. */
export interface Playing {
  /** The measure with which the section begins: equal for all its playings. */
  section: number;
  part: string | null;
  bars: Bar[];
}

export interface PlayedBars {
  /** What is played before the first full measure. */
  pickup: Bar | null;
  playings: Playing[];
}

/** The length of a full measure in whole notes; `null` in free meter. */
function fullLength(meter: ScoreMeter | null): Rational | null {
  return meter && rational(meter.count, meter.unit);
}

/** A voice played out, section by section. */
export function playedBars(voice: ScoreVoice, order: Score['order']): PlayedBars {
  const indices = playOrder(voice, order);
  const playings: Playing[] = [];
  let before: { index: number; measure: ScoreMeasure } | null = null;
  for (const index of indices) {
    const measure = voice.measures[index];
    if (!measure) continue;
    const isSectionStart =
      !before ||
      index <= before.index ||
      measure.opensRepeat ||
      measure.part !== null ||
      before.measure.timesPlayed > 0 ||
      (before.measure.ending !== null && measure.ending === null) ||
      before.measure.endsSection;
    if (isSectionStart) playings.push({ section: index, part: measure.part, bars: [] });
    if (compare(measure.length, ZERO) > 0) playings.at(-1)?.bars.push(barOf(measure));
    before = { index, measure };
  }
  const full = fullLength(voice.measures[0]?.meter ?? null);
  return withWholeBars(
    playings.filter(({ bars }) => bars.length > 0),
    full,
  );
}

function barOf({ length, notes, labels, line, column }: ScoreMeasure): Bar {
  return { length, notes, labels, line, column };
}

function withWholeBars(playings: Playing[], full: Rational | null): PlayedBars {
  if (!full) return { pickup: null, playings };
  const isShort = (bar: Bar | undefined): bar is Bar => bar !== undefined && compare(bar.length, full) < 0;
  let pickup: Bar | null = null;
  const opening = playings[0]?.bars;
  if (opening && isShort(opening[0]) && (opening.length > 1 || playings.length > 1)) {
    pickup = opening.shift() ?? null;
  }
  for (const [place, { bars }] of playings.entries()) {
    const next = playings[place + 1]?.bars;
    const [last, first] = [bars.at(-1), next?.[0]];
    if (!isShort(last) || !isShort(first) || !next) continue;
    if (!equal(add(last.length, first.length), full)) continue;
    bars[bars.length - 1] = joined(last, first);
    next.shift();
  }
  const whole = playings.filter(({ bars }) => bars.length > 0);
  const bars = whole.at(-1)?.bars;
  const last = bars?.at(-1);
  // the tune's own pickup fills the last measure when it is played again
  if (pickup && bars && isShort(last) && equal(add(last.length, pickup.length), full)) {
    bars[bars.length - 1] = { ...last, length: full };
  }
  return { pickup, playings: whole };
}

function joined(first: Bar, second: Bar): Bar {
  const later = <T extends { onset: Rational }>(thing: T): T => ({
    ...thing,
    onset: add(thing.onset, first.length),
  });
  return {
    ...first,
    length: add(first.length, second.length),
    notes: [...first.notes, ...second.notes.map(later)],
    labels: [...first.labels, ...second.labels.map(later)],
  };
}

/** A long bar in pieces of a length: what sounds over a cut is held over it. */
export function cutBar(bar: Bar, piece: Rational): Bar[] {
  const bars: Bar[] = [];
  for (let start = ZERO; compare(start, bar.length) < 0; start = add(start, piece)) {
    const end = add(start, piece);
    const rest = subtract(bar.length, start);
    const inside = <T extends { onset: Rational }>({ onset }: T): boolean =>
      compare(onset, start) >= 0 && compare(onset, end) < 0;
    const earlier = <T extends { onset: Rational }>(thing: T): T => ({
      ...thing,
      onset: subtract(thing.onset, start),
    });
    const held = bar.notes.filter(
      ({ onset, duration }) => compare(onset, start) < 0 && compare(add(onset, duration), start) > 0,
    );
    const length = compare(rest, piece) < 0 ? rest : piece;
    bars.push({
      ...bar,
      length,
      notes: [
        ...held.map((note) => ({
          ...note,
          onset: ZERO,
          duration: subtract(add(note.onset, note.duration), start),
          tied: true as const,
        })),
        ...bar.notes.filter(inside).map(earlier),
      ].map((note) => withinBar(note, length)),
      labels: bar.labels.filter(inside).map(earlier),
    });
  }
  return bars;
}

/** A note that ends with its bar at the latest. */
export function withinBar(note: ScoreNote, length: Rational): ScoreNote {
  const room = subtract(length, note.onset);
  return compare(note.duration, room) <= 0 ? note : { ...note, duration: room };
}
