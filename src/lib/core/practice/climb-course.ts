import { nextStep, setTempoByHand, startClimb, type ClimbStart, type ClimbState } from './climb';
import type { Mark } from './marking';

/** A tempo set by the learner's hand once so many passes of the drill had been played. */
export interface HandMove {
  afterPass: number;
  tempo: number;
}

/**
 * The climb after these passes and moves, as a fold: a mark that is changed later changes the climb too. `why` says how
 * the last marked pass moved it; empty when nothing has, or a hand did.
 */
export function climbAfter(
  start: ClimbStart,
  passes: readonly { number: number; mark: Mark }[],
  moves: readonly HandMove[],
): { state: ClimbState; why: string } {
  let state = startClimb(start);
  let why = '';
  const moveAfter = (count: number): void => {
    for (const move of moves) {
      if (move.afterPass !== count) continue;
      state = setTempoByHand(state, move.tempo);
      why = '';
    }
  };
  moveAfter(0);
  for (const { mark, number } of passes) {
    const step = nextStep(state, mark);
    state = step.state;
    if (mark !== null) why = step.move.why;
    moveAfter(number);
  }
  return { state, why };
}
