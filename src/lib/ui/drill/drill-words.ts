import { OUTCOMES } from '$lib/core/practice/records';
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
  if (run.hearing.isOn) return run.hearing.turn === 'answer' ? 'your turn' : 'listen';
  switch (run.phase) {
    case 'look':
      return run.writing ? 'look' : 'ready';
    case 'paused':
    case 'count-in':
    case 'done':
      return run.phase;
    case 'pass':
      return run.isHandful ? `passes ${firstPass}–${firstPass + passes - 1}` : `pass ${firstPass}`;
    case 'breath':
      if (run.isHandful && run.clean !== null) return run.clean === 0 ? 'none clean' : `${run.clean} clean`;
      return run.mark ?? (unmarkedCounts ? 'clean' : 'unmarked');
  }
}

/** What to do now, in a sentence or two. */
export function drillHint(run: DrillView, way: MarkingWay): string {
  if (run.hearing.isOn) return hearingHint(run);
  switch (run.phase) {
    case 'look':
      return run.writing
        ? `Look at the ${run.writing}. Touch here, and the count-in begins.`
        : 'Touch here, and the count-in begins.';
    case 'paused':
      return 'Every marked pass is kept. Touch here to go on with a count-in.';
    case 'breath':
      return run.isHandful ? handfulHint(run) : breathHint(run, way);
    case 'count-in':
    case 'pass':
    case 'done':
      if (run.moved !== '') return `${run.moved.charAt(0).toUpperCase()}${run.moved.slice(1)}.`;
      return run.isHandful
        ? 'Four passes run on. After the fourth, one touch for each that was clean.'
        : 'Touch only if it breaks down. After the pass, one touch for clean, two for stumbled.';
  }
}

/** `7 passes · 6 clean · 4 from memory`, of the marked ones. */
export function drillCount(run: DrillView): string {
  const marked = run.passes.filter(({ mark }) => mark !== null);
  const clean = marked.filter(({ mark }) => mark === 'clean').length;
  const byHeart = marked.filter(({ fromMemory }) => fromMemory).length;
  return `${marked.length} ${marked.length === 1 ? 'pass' : 'passes'} · ${clean} clean · ${byHeart} from memory`;
}

function hearingHint({ hearing, tune, missing, phase }: DrillView): string {
  const tempo =
    hearing.tempo === tune.goalTempo ? `At ${hearing.tempo}, the goal.` : `Slowly, at ${hearing.tempo}.`;
  const lack = missing ? ` ${missing.sentence}` : '';
  return `${tempo}${lack} Touch here ${phase === 'look' ? 'to begin' : 'to go on with'} the drill.`;
}

function handfulHint({ clean, nextTempo }: DrillView): string {
  return clean === null
    ? 'One touch for each of the four that came out clean.'
    : `The next four come in at ${nextTempo}.`;
}

function breathHint(run: DrillView, { waits, unmarkedCounts }: MarkingWay): string {
  if (run.mark === null) {
    return unmarkedCounts
      ? 'Leave it: clean. Two touches: stumbled. Three: broke down.'
      : 'One touch: clean. Two: stumbled. Three: broke down. Left alone, it does not count.';
  }
  const next = waits
    ? `The next pass comes in at ${run.nextTempo}.`
    : `Leave it, and pass ${run.passes.length + 1} comes in at ${run.nextTempo}.`;
  const touched = OUTCOMES[OUTCOMES.indexOf(run.mark) + 1] ?? 'unmarked';
  return `${next} Touch again: ${touched}.`;
}
