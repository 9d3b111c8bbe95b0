import { measureLabel } from '../tune/passage-name';
import type { ReasonKind } from './plan';
import * as reasons from './reasons';
import type { Stretch } from './stretches';
import type { LinkState, TuneState } from './tune-state';
import { say } from '../../texts/reason';
import { tempoWord } from './words';

/** Why a stretch of a tune is worth a drill: the kind of reason, and the sentence when it is asked for. */
export function stretchReason(
  state: TuneState,
  { where, links }: Stretch,
  item: LinkState,
): { kind: ReasonKind; reason: () => string } {
  const { passage } = item.link;
  if (passage.kind === 'tune') return { kind: 'play it through', reason: () => throughReason(state, item) };
  if (passage.kind === 'part') {
    return { kind: 'join the part', reason: () => partReason(state, passage.part, links) };
  }
  if (passage.kind === 'phrase' && where) {
    return { kind: 'in its surroundings', reason: () => phraseReason(state, where, links) };
  }
  const seam = state.seams.find(({ link }) => link === item.link);
  if (!seam) return { kind: 'slowest link', reason: () => linkReason(state, item) };
  if (seam.standing.passes === 0) return { kind: 'open seam', reason: () => reasons.openSeam(state, seam) };
  if (reasons.seamDrags(state, seam))
    return { kind: 'slow seam', reason: () => reasons.slowSeam(state, seam) };
  return { kind: 'slowest link', reason: () => linkReason(state, item) };
}

function linkReason(state: TuneState, item: LinkState): string {
  const slower = [...state.figures, ...state.seams].filter(({ tempo }) => tempo > 0 && tempo < item.tempo);
  return reasons.slowestLink(state, item, slower.length);
}

/** What a phrase turns on is its slowest measure or join; where all hold alike, none holds it back. */
function phraseReason(
  state: TuneState,
  { part, from, count }: NonNullable<Stretch['where']>,
  links: readonly number[],
): string {
  const place = links.reduce((a, b) => (tempoAt(state, b) < tempoAt(state, a) ? b : a));
  const slowest = tempoAt(state, place);
  const fastest = Math.max(...links.map((link) => tempoAt(state, link)).filter(Number.isFinite));
  const goal = Math.round(slowest) < Math.round(state.goal) ? tempoWord(state.goal) : null;
  const tempo = tempoWord(slowest);
  if (slowest * HEARD > fastest) return say.oneByOne(count, tempo, goal);
  const at = links.indexOf(place);
  const label = (index: number) => measureLabel({ part: part.passage.part, index });
  const before = from + at - count;
  return at < count
    ? say.heldBackByMeasure(label(from + at), tempo, goal)
    : say.heldBackByJoin(label(before), label(before + 1), tempo, goal);
}

/** A difference in tempo that is plainly heard (Drake & Botte 1993: about 3 %). */
const HEARD = 1.03;

function partReason(state: TuneState, name: string, links: readonly number[]): string {
  const part = state.parts.find(({ link }) => link.passage.part === name);
  const isSettled = links.every((link) => linkAt(state, link).standing.isSettled);
  if (part && isSettled && part.link.joins.length > 0) return reasons.joinPart(state, part);
  const slowest = Math.min(...links.map((link) => tempoAt(state, link)));
  return say.wholePart(name, tempoWord(slowest), tempoWord(state.goal));
}

function throughReason(state: TuneState, whole: LinkState): string {
  if (state.linksSettled || whole.standing.isSettled) return reasons.playThrough(state);
  const links = [...state.figures, ...state.seams].filter(({ tempo }) => tempo > 0);
  const slowest = links.reduce((least, { tempo }) => Math.min(least, tempo), Infinity);
  return say.everyMeasureKnown(tempoWord(slowest));
}

function linkAt({ figures, seams }: TuneState, link: number): LinkState {
  return figures[link] ?? seams[link - figures.length]!;
}

/** Where it is settled; what was not played yet counts as no slower than the rest. */
function tempoAt(state: TuneState, link: number): number {
  return linkAt(state, link).tempo || Infinity;
}
