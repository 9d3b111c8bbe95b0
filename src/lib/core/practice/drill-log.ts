import { HANDFUL, handfulMarks, type Mark } from './marking';
import { countedPasses } from './settled-log';
import type { Correction, LogEntry, Pass } from './records';
import type { Moment } from '../time/moment';
import type { Id } from '../tune/tune';

/** Where a drill is: before its first count-in, in the three stretches of a turn, held, or over. */
export type DrillPhase = 'look' | 'count-in' | 'pass' | 'breath' | 'paused' | 'done';

/** A pass of the drill under way, whether or not anything has been written for it yet. */
export interface PlayedPass {
  /** From 1 in the drill. */
  number: number;
  tempo: number;
  mark: Mark;
  fromMemory: boolean;
  ended: Moment;
  /** Of its log entry; `null` while it has none. */
  passId: Id | null;
}

/** What has to be written so that the log says `mark` of a pass; nothing when it says so already. */
export function entryFor(pass: PlayedPass, mark: Mark, drillId: Id, now: Moment, id: Id): LogEntry | null {
  if (pass.mark === mark) return null;
  if (pass.passId === null && mark !== null) {
    const { tempo, fromMemory, ended } = pass;
    return {
      ...ended,
      kind: 'pass',
      id,
      drillId,
      tempo,
      outcome: mark,
      fromMemory,
      missAt: null,
    } satisfies Pass;
  }
  if (pass.passId === null) return null;
  return {
    ...now,
    kind: 'correction',
    id,
    drillId,
    passId: pass.passId,
    outcome: mark ?? 'unmarked',
  } satisfies Correction;
}

/** The marks of a turn's passes after `touches` of the count, for one pass or for a handful. */
export function marksOf(passes: number, mark: Mark, clean: number | null): Mark[] {
  return passes === HANDFUL ? handfulMarks(clean) : [mark];
}

/** The passes of a drill as the log has them, to go on with; those that were never marked left no trace. */
export function playedPasses(log: readonly LogEntry[], drillId: Id): PlayedPass[] {
  return countedPasses(log.filter((entry) => entry.drillId === drillId)).map((pass, index) => ({
    number: index + 1,
    tempo: pass.tempo,
    mark: pass.outcome,
    fromMemory: pass.fromMemory,
    ended: { at: pass.at, offsetMin: pass.offsetMin },
    passId: pass.id,
  }));
}
