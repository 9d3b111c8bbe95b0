import type { Moment } from '../time/moment';
import { measureLabel, passageLabels } from '../tune/passage-name';
import { say } from '../../texts/reason';
import { agoWords } from '../time/date-words';
import { tempoWord } from './words';
import type { LayerMap } from './tune-map';
import type { LinkState, TuneState } from './tune-state';

/** A join is said to drag when it is this much slower than both its measures: a step of tempo that is plainly heard. */
const DRAG = 0.95;

/** Nobody counts further than to the sixth slowest. */
const RANKS = 6;

type Figure = TuneState['figures'][number];
type Seam = TuneState['seams'][number];
type Part = TuneState['parts'][number];

/** The label of the measure in which a figure is first played: `A2`. */
function figureLabel(map: LayerMap, place: number): string | null {
  for (const { passage, places } of map.parts) {
    const index = places.indexOf(place);
    if (index >= 0) return measureLabel({ part: passage.part, index });
  }
  return null;
}

export function seamDrags(state: TuneState, { link, tempo }: Seam): boolean {
  const ends = [state.figures[link.from]!, state.figures[link.to]!];
  return ends.every((end) => end.tempo > 0 && tempo < end.tempo * DRAG);
}

export function slowSeam(state: TuneState, seam: Seam): string {
  const slower = Math.min(state.figures[seam.link.from]!.tempo, state.figures[seam.link.to]!.tempo);
  const tempos = [tempoWord(seam.tempo), tempoWord(slower)] as const;
  return seam.link.from === seam.link.to ? say.joinIntoItselfDrags(...tempos) : say.joinDrags(...tempos);
}

export function slowestLink(state: TuneState, item: LinkState, rank: number): string {
  const place = rank < RANKS ? rank + 1 : 1;
  const tempo = tempoWord(item.tempo);
  const beside = neighbours(state, item).filter((tempo) => tempo > 0);
  const slowest = Math.min(...beside);
  if (beside.length > 0 && slowest >= item.tempo * 1.03 && Math.floor(slowest) > Math.round(item.tempo)) {
    return say.slowestByNeighbours(place, tempo, beside.length, tempoWord(slowest));
  }
  return say.slowestByGoal(place, tempo, tempoWord(state.goal));
}

function neighbours(state: TuneState, { link }: LinkState): number[] {
  const { passage } = link;
  const { seams, figures } = state;
  if (passage.kind === 'seam') {
    const seam = seams.find((candidate) => candidate.link === link);
    return seam ? [figures[seam.link.from]!.tempo, figures[seam.link.to]!.tempo] : [];
  }
  const own = figures.findIndex((figure) => figure.link === link);
  const beside = seams.flatMap(({ link: { from, to } }) => (from === own ? [to] : to === own ? [from] : []));
  return [...new Set(beside)].filter((place) => place !== own).map((place) => figures[place]!.tempo);
}

export function openSeam({ figures }: TuneState, { link }: Seam): string {
  if (link.from === link.to) return say.joinIntoItselfUntried;
  const slower = Math.min(figures[link.from]!.tempo, figures[link.to]!.tempo);
  return say.joinUntried(tempoWord(slower));
}

export function joinPart(state: TuneState, part: Part): string {
  const { figures, seams, passage } = part.link;
  const slowest = Math.min(
    ...figures.map((place) => state.figures[place]!.tempo),
    ...seams.map((place) => state.seams[place]!.tempo),
  );
  return say.joinsHold(passage.part, seams.length, tempoWord(slowest));
}

export function playThrough({ parts, whole, goal }: TuneState): string {
  const slowest = Math.min(...parts.map(({ tempo }) => tempo).filter((tempo) => tempo > 0));
  if (whole.standing.isSettled) return say.playedThrough(tempoWord(whole.tempo), tempoWord(goal));
  if (!Number.isFinite(slowest)) return say.allHolds;
  return say.partsHold(parts.length, tempoWord(slowest));
}

export function newFigure(state: TuneState, { link }: Figure): string {
  const own = state.map.figures.indexOf(link);
  const before = state.figures[own - 1];
  if (!before) return say.newBegins(state.tune.title);
  return say.newAfter(figureLabel(state.map, own - 1), before.tempo > 0 ? tempoWord(before.tempo) : null);
}

export function nextLayer(state: TuneState, next: LayerMap, link: LayerMap['figures'][number]): string {
  const where = figureLabel(next, next.figures.indexOf(link));
  const slowest = Math.min(...[...state.figures, ...state.seams].map(({ tempo }) => tempo));
  return say.nextLayer(state.map.layer.name, tempoWord(slowest), next.layer.name, where);
}

/** `item` is what is to be played, `worst` what has faded most in it. */
export function rusty(state: TuneState, item: LinkState, worst: LinkState, now: Moment): string {
  const from = item.standing.lastPlayed ? item : worst;
  const { lastCleanTempo, lastPlayed } = from.standing;
  const where = from === item ? [] : passageLabels(state.tune, from.link.passage);
  const clean = lastCleanTempo === null ? null : tempoWord(lastCleanTempo);
  return say.fading(worst.rust === 'likely faded', where, clean, lastPlayed && agoWords(lastPlayed, now));
}

export function warmUp(item: LinkState): string {
  return say.warmUp(tempoWord(item.tempo));
}

export function yourChoice(item: LinkState, goal: number): string {
  return say.yourChoice(item.tempo === 0 ? null : tempoWord(item.tempo), tempoWord(goal));
}
