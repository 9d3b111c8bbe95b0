import { say } from '../../../texts/reading-midi';
import { rational, type Rational } from '../../rhythm/rational';
import { compareNotes } from '../../tune/melody';
import type { Warnings } from '../reading';
import { NO_SIGNS, type ScoreMeasure, type ScoreMeter, type ScoreNote } from '../score';
import type { MidiEvents } from './midi-events';
import type { GridNote } from './quantise';

/** A measure of the file, in ticks (which need not be whole where a triplet leads in). */
export interface BarSpan {
  from: number;
  to: number;
  length: Rational;
  meter: ScoreMeter;
}

/** Measures by the meters in force, up to the last note and `most` at most. A meter that changes inside a measure cuts it there. */
export function barsOf(
  meters: MidiEvents['meters'],
  { division, end, most }: { division: number; end: number; most: number },
): BarSpan[] {
  const changes = meters.toSorted((a, b) => a.tick - b.tick);
  const bars: BarSpan[] = [];
  let next = 0;
  let meter: ScoreMeter = changes[0]
    ? { count: changes[0].count, unit: changes[0].unit }
    : { count: 4, unit: 4 };
  for (let from = 0; from < end && bars.length < most;) {
    for (; (changes[next]?.tick ?? Infinity) <= from; next += 1) {
      meter = { count: changes[next]?.count ?? 4, unit: changes[next]?.unit ?? 4 };
    }
    const full = from + (4 * division * meter.count) / meter.unit;
    const change = changes[next]?.tick ?? Infinity;
    const to = Math.max(from + 1, Math.round(Math.min(change, full)));
    bars.push({ from, to, length: rational(to - from, 4 * division), meter });
    from = to;
  }
  return bars;
}

/**
 * The measures from the first note on. A first measure of which half or more is silent begins with its first note: a pickup;
 * so is one that the file makes shorter than the meter that follows.
 */
export function withoutSilence(
  bars: readonly BarSpan[],
  meter: ScoreMeter,
  first: number,
  warnings: Warnings,
): BarSpan[] {
  const silent = Math.max(
    0,
    bars.findIndex(({ to }) => to > first),
  );
  if (silent > 0) warnings.add(1, 1, say.silentMeasures(silent));
  const [opening, ...rest] = bars.slice(silent);
  if (!opening) return [...bars];
  const { from, to, length } = opening;
  if (2 * (first - from) >= to - from) {
    warnings.add(1, 1, say.readAsPickup);
    const left = rational(Math.round(12 * (to - first)), Math.round(12 * (to - from)));
    const inMeter = rational(left[0] * length[0], left[1] * length[1]);
    return [{ from: first, to, length: inMeter, meter: opening.meter }, ...rest];
  }
  const isShort = opening.meter.count / opening.meter.unit < meter.count / meter.unit;
  return [isShort && rest.length > 0 ? { ...opening, meter } : opening, ...rest];
}

/**
 * The notes in their measures; what sounds over a bar line is tied. Times are exact: grid places, not ticks. `budget` is
 * how many notes the voices may still have.
 */
export function measuresOf(
  notes: readonly GridNote[],
  bars: readonly BarSpan[],
  budget: { left: number },
): ScoreMeasure[] {
  const inBars = bars.map((): ScoreNote[] => []);
  let bar = 0;
  for (const { from, to, pitch, unit } of notes) {
    while (bar + 1 < bars.length && (bars[bar]?.to ?? 0) <= from) bar += 1;
    for (let at = bar; at < bars.length && (bars[at]?.from ?? to) < to && budget.left > 0; at += 1) {
      const span = bars[at]!;
      const [start, end] = [Math.max(from, span.from), Math.min(to, span.to)];
      if (end <= start) continue;
      const place = (tick: number) => rational(Math.round(tick * 12), unit * 12);
      budget.left -= 1;
      inBars[at]?.push({
        onset: place(start - span.from),
        duration: place(end - start),
        pitch,
        ...(start > from && { tied: true as const }),
      });
    }
  }
  return bars.map(({ length, meter }, index) => ({
    ...{ line: 1, column: 1, meter, length, notes: (inBars[index] ?? []).sort(compareNotes), labels: [] },
    ...NO_SIGNS,
  }));
}
