import { say } from '../../texts/typed-tab';
import type { Warnings } from './reading';
import type { TypedMeasure } from './typed-tab-measures';

/** More times through than any tune has. */
const TIMES_MAX = 9;

/**
 * The measures of a part with its endings played out: everything before them, then the ending of that time. `times` is 1
 * where there are none. Numbers without a repeat sign between them count measures, and are no endings.
 */
export function unfoldedEndings(
  measures: readonly TypedMeasure[],
  warnings: Warnings,
): { measures: TypedMeasure[]; times: number } {
  const first = measures.findIndex(({ ending }) => ending !== null);
  const bracket = measures[first]?.ending;
  if (!bracket) return { measures: [...measures], times: 1 };
  const leave = (why: string) => {
    warnings.add(bracket.line, bracket.lineColumn, why);
    return { measures: [...measures], times: 1 };
  };
  const brackets = bracketsOf(measures, first);
  const isSigned = brackets.some(({ from, to, isSaid }) =>
    isSaid ? true : measures.slice(from, to).some(({ closesRepeat }) => closesRepeat),
  );
  const times = Math.min(TIMES_MAX, Math.max(...brackets.flatMap(({ numbers }) => numbers)));
  if (!isSigned || !bracket.numbers.includes(1) || times < 2) return leave(say.noEndings);
  // the way back goes to the last repeat sign before the endings
  const back = Math.max(
    0,
    measures.slice(0, first).findLastIndex(({ opensRepeat }) => opensRepeat),
  );
  if (back === first) return leave(say.endingsAlone);
  const body = measures.slice(back, first);
  const after = brackets.at(-1)?.to ?? measures.length;
  const played = Array.from({ length: times }, (_, index) => [
    ...body,
    ...brackets
      .filter(({ numbers }) => numbers.includes(index + 1))
      .flatMap(({ from, to }) => measures.slice(from, to)),
  ]);
  return { measures: [...measures.slice(0, back), ...played.flat(), ...measures.slice(after)], times };
}

interface Bracket {
  numbers: readonly number[];
  isSaid: boolean;
  from: number;
  /** Not included. */
  to: number;
}

function bracketsOf(measures: readonly TypedMeasure[], first: number): Bracket[] {
  const brackets: Bracket[] = [];
  for (const [index, { ending }] of measures.entries()) {
    if (index < first || !ending) continue;
    const next = measures.findIndex((measure, later) => later > index && measure.ending !== null);
    const closed = measures.findIndex(
      (measure, later) => later >= index && (measure.closesRepeat || measure.closesPart),
    );
    const limit = next === -1 ? measures.length : next;
    brackets.push({ ...ending, from: index, to: closed === -1 ? limit : Math.min(limit, closed + 1) });
  }
  return brackets;
}
