import type { PassageKind } from '../tune/passage';
import { DRILLED, type KindMinutes, type Week } from './weeks';

/** Whole minutes that went to one kind of passage. */
export interface DrilledShare {
  kind: PassageKind;
  minutes: number;
}

/**
 * What the minutes of some weeks went to, in whole minutes that add up to the whole minutes of all: those cut most by rounding
 * down get a minute more. Kinds with no whole minute are left out.
 */
export function drilledMinutes(weeks: readonly Pick<Week, 'minutesOf'>[]): DrilledShare[] {
  const sums = DRILLED.map((kind) => ({ kind, exact: sumOf(weeks, kind) }));
  const shares = sums.map(({ kind, exact }) => ({ kind, minutes: Math.floor(exact), cut: exact % 1 }));
  const total = Math.round(sums.reduce((sum, { exact }) => sum + exact, 0));
  const missing = total - shares.reduce((sum, { minutes }) => sum + minutes, 0);
  for (const share of shares.toSorted((a, b) => b.cut - a.cut).slice(0, missing)) share.minutes += 1;
  return shares.filter(({ minutes }) => minutes > 0).map(({ kind, minutes }) => ({ kind, minutes }));
}

function sumOf(weeks: readonly { minutesOf: KindMinutes }[], kind: PassageKind): number {
  return weeks.reduce((sum, { minutesOf }) => sum + minutesOf[kind], 0);
}
