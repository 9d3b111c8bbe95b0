import { passageName } from '../tune/passage-name';
import { figurePassages } from '../tune/places';
import { passageKey } from '../tune/passage';
import type { Tune } from '../tune/tune';
import type { TuneBoard } from './tune-board';

/** The tempos that a practice sheet gives, in beats per minute. */
export interface SheetTempos {
  goal: number;
  /** Where the slowest link is clean 17 times in 20, and which that is; `null` when nothing has been played. */
  settled: { tempo: number; link: string } | null;
  /** Where every link comes out clean with ease: the slowest link's comfortable tempo; of measures not played yet, the lowest guess. */
  start: number | null;
}

export function sheetTempos(tune: Tune, board: TuneBoard): SheetTempos {
  const slowest = board.slowest === null ? undefined : board.standings[board.slowest];
  const guesses = figurePassages(tune, board.layerId).flatMap(
    (figure) => board.standings[passageKey(figure)]?.comfortable ?? [],
  );
  const lowest = guesses.length > 0 ? Math.min(...guesses) : null;
  return {
    goal: tune.goalTempo,
    settled:
      board.settled && slowest
        ? { tempo: Math.round(board.settled.tempo), link: passageName(tune, slowest.passage) }
        : null,
    start: slowest?.comfortable ?? lowest,
  };
}
