import { say } from '../../texts/climb';
import type { Outcome } from './records';
import type { SettledTempo } from './standing';

export interface DrillSoFar {
  elapsedMin: number;
  /** The minutes that the drill was given. */
  minutes: number;
  /** The passage's settled tempo as it is estimated now; `null`: not known. */
  settled: SettledTempo | null;
  /** Of this drill, oldest first. */
  outcomes: readonly Outcome[];
}

/** Misses among so many newest passes that say the hands are done for now. */
const TIRED = { misses: 6, of: 8 };
/** Fewer passes than this never end a drill as known well enough. */
const SHARP_PASSES = 12;
/** An 80 % interval this narrow (high over low) leaves nothing to find out today. */
const SHARP_RATIO = 1.12;
const CLEAN_TO_CLOSE = 5;

/** Why a drill is done, as a sentence, or `null` to go on. The rules are of thumb: the learner may always go on. */
export function drillIsDone({ elapsedMin, minutes, settled, outcomes }: DrillSoFar): string | null {
  const newest = outcomes.slice(-TIRED.of);
  const misses = newest.filter((outcome) => outcome !== 'clean').length;
  if (misses >= TIRED.misses) return say.handsTired(misses, newest.length);
  if (elapsedMin >= minutes) return say.timeUp;
  if (settled === null || outcomes.length < SHARP_PASSES || settled.high > settled.low * SHARP_RATIO)
    return null;
  if (outcomes.slice(-CLEAN_TO_CLOSE).some((outcome) => outcome !== 'clean')) return null;
  return say.sureOfIt(Math.round(settled.tempo));
}
