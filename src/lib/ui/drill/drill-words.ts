import { OUTCOMES } from '$lib/core/practice/records';
import { say } from '$lib/texts/drill-screen';
import type { DrillView } from './drill-view';

/** How marking is set up. */
export interface MarkingWay {
  /** The breath lasts until it is touched. */
  waits: boolean;
  /** A pass that nobody marks counts as clean. */
  unmarkedCounts: boolean;
}

/** The one large word of the drill. */
export function drillWord(run: DrillView, { unmarkedCounts }: MarkingWay): string {
  const { firstPass, passes } = run.turn;
  if (run.hearing.isOn) return run.hearing.turn === 'answer' ? say.yourTurn : say.listen;
  switch (run.phase) {
    case 'look':
      return run.writing ? say.look : say.ready;
    case 'paused':
    case 'count-in':
    case 'done':
      return say.phases[run.phase];
    case 'pass':
      return run.isHandful ? say.passes(firstPass, firstPass + passes - 1) : say.pass(firstPass);
    case 'breath':
      if (run.isHandful && run.clean !== null) return say.cleanOnes(run.clean);
      return say.marks[run.mark ?? (unmarkedCounts ? 'clean' : 'unmarked')];
  }
}

/** What to do now, in a sentence or two. */
export function drillHint(run: DrillView, way: MarkingWay): string {
  if (run.hearing.isOn) return hearingHint(run);
  switch (run.phase) {
    case 'look':
      return run.writing ? say.lookAt[run.writing] : say.begin;
    case 'paused':
      return say.paused;
    case 'breath':
      return run.isHandful ? handfulHint(run) : breathHint(run, way);
    case 'count-in':
    case 'pass':
    case 'done':
      if (run.moved !== '') return say.moved(run.moved);
      return run.isHandful ? say.handfulHint : say.passHint;
  }
}

/** `7 passes · 6 clean · 4 from memory`, of the marked ones. */
export function drillCount(run: DrillView): string {
  const marked = run.passes.filter(({ mark }) => mark !== null);
  const clean = marked.filter(({ mark }) => mark === 'clean').length;
  const byHeart = marked.filter(({ fromMemory }) => fromMemory).length;
  return say.count(marked.length, clean, byHeart);
}

function hearingHint({ hearing, tune, missing, phase }: DrillView): string {
  const { tempo } = hearing;
  const sentences = [
    tempo === tune.goalTempo ? say.heardAtGoal(tempo) : say.heardSlowly(tempo),
    ...(missing ? [missing.sentence] : []),
    phase === 'look' ? say.toBegin : say.toGoOn,
  ];
  return sentences.join(' ');
}

function handfulHint({ clean, nextTempo }: DrillView): string {
  return clean === null ? say.markHandful : say.nextHandful(nextTempo);
}

function breathHint(run: DrillView, { waits, unmarkedCounts }: MarkingWay): string {
  if (run.mark === null) return unmarkedCounts ? say.leftIsClean : say.leftIsUnmarked;
  const next = waits ? say.nextWaits(run.nextTempo) : say.nextComes(run.passes.length + 1, run.nextTempo);
  const touched = OUTCOMES[OUTCOMES.indexOf(run.mark) + 1] ?? 'unmarked';
  return `${next} ${say.touchAgain(say.marks[touched])}`;
}
