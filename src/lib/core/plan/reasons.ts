import type { Moment } from '../time/moment';
import type { ReasonKind } from './plan';
import { measureLabel, passageLabels } from '../tune/passage-name';
import { counted } from '../../texts/number-words';
import { agoWords } from '../time/date-words';
import { tempoWord } from './words';
import type { LayerMap } from './tune-map';
import type { LinkState, TuneState } from './tune-state';

/** The rule behind each kind of reason, in a sentence: what the explanation adds to the reason itself. */
export const RULES: Readonly<Record<ReasonKind, string>> = {
  'slowest link': 'A tune is as fast as its slowest link, so that is what is drilled first.',
  'slow seam': 'Where two measures hold and their join does not, the join is what holds the tune back.',
  'open seam': 'A join is tried as soon as both of its measures are settled.',
  'in its surroundings':
    'A hard place is drilled alone and then with what is around it, where it has to hold.',
  'join the part': 'What holds piece by piece is played in one go before the tune is.',
  'play it through': 'Played as a whole, every measure and every join is brought on at once.',
  'new figure': 'New measures come in playing order, a few at a time, from one tune a day.',
  'next layer': 'A layer is added when the one before it is settled at three quarters of the goal.',
  rusty: 'What is about to be lost is refreshed before it has to be learned again.',
  'warm-up': 'A sitting begins with something that is settled and has not been played for a while.',
  'your choice': 'What you ask for goes in before anything else.',
};

/** A join is said to drag when it is this much slower than both its measures: a step of tempo that is plainly heard. */
const DRAG = 0.95;

const ORDINALS = ['', 'second ', 'third ', 'fourth ', 'fifth ', 'sixth '];

type Figure = TuneState['figures'][number];
type Seam = TuneState['seams'][number];
type Part = TuneState['parts'][number];

/** The label of the measure in which a figure is first played: `A2`. */
function figureLabel(map: LayerMap, place: number): string {
  for (const { passage, places } of map.parts) {
    const index = places.indexOf(place);
    if (index >= 0) return measureLabel({ part: passage.part, index });
  }
  return 'a measure';
}

export function seamDrags(state: TuneState, { link, tempo }: Seam): boolean {
  const ends = [state.figures[link.from]!, state.figures[link.to]!];
  return ends.every((end) => end.tempo > 0 && tempo < end.tempo * DRAG);
}

export function slowSeam(state: TuneState, seam: Seam): string {
  const slower = Math.min(state.figures[seam.link.from]!.tempo, state.figures[seam.link.to]!.tempo);
  const both = seam.link.from === seam.link.to ? 'the measure itself holds' : 'both its measures hold';
  return `The join drags: clean at ${tempoWord(seam.tempo)}, while ${both} at ${tempoWord(slower)}.`;
}

export function slowestLink(state: TuneState, item: LinkState, rank: number): string {
  const which = `The ${ORDINALS[rank] ?? ''}slowest link`;
  const tempo = tempoWord(item.tempo);
  const beside = neighbours(state, item).filter((tempo) => tempo > 0);
  const slowest = Math.min(...beside);
  if (beside.length > 0 && slowest >= item.tempo * 1.03 && Math.floor(slowest) > Math.round(item.tempo)) {
    const who = beside.length === 1 ? 'the one beside it holds' : 'its neighbours hold';
    return `${which}: clean at ${tempo}, while ${who} at ${tempoWord(slowest)}.`;
  }
  return `${which}: clean at ${tempo}, and the goal is ${tempoWord(state.goal)}.`;
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
  if (link.from === link.to) return 'The measure holds now. The join from it into itself is untried.';
  const slower = Math.min(figures[link.from]!.tempo, figures[link.to]!.tempo);
  return `Both measures hold now, at ${tempoWord(slower)} or better. The join between them is untried.`;
}

export function joinPart(state: TuneState, part: Part): string {
  const { figures, seams, passage } = part.link;
  const slowest = Math.min(
    ...figures.map((place) => state.figures[place]!.tempo),
    ...seams.map((place) => state.seams[place]!.tempo),
  );
  const joins = seams.length === 1 ? 'The join' : `All ${counted(seams.length, 'join')}`;
  const verb = seams.length === 1 ? 'holds' : 'hold';
  return `${joins} of part ${passage.part} ${verb} at ${tempoWord(slowest)} or better. Now the part in one go.`;
}

export function playThrough({ parts, whole, goal }: TuneState): string {
  const slowest = Math.min(...parts.map(({ tempo }) => tempo).filter((tempo) => tempo > 0));
  if (whole.standing.isSettled) {
    return `It holds at ${tempoWord(whole.tempo)} played through, and the goal is ${tempoWord(goal)}.`;
  }
  if (!Number.isFinite(slowest)) return 'Every measure and every join holds. Now the whole tune.';
  const who =
    parts.length === 1 ? 'The part holds' : parts.length === 2 ? 'Both parts hold' : 'The parts hold';
  return `${who} at ${tempoWord(slowest)} or better. Now the whole tune.`;
}

export function newFigure(state: TuneState, { link }: Figure): string {
  const own = state.map.figures.indexOf(link);
  const before = state.figures[own - 1];
  if (!before) return `New: it begins ${state.tune.title}.`;
  const label = figureLabel(state.map, own - 1);
  if (before.tempo > 0) return `New: it comes after ${label}, which holds at ${tempoWord(before.tempo)}.`;
  return `New: it comes after ${label} in playing order.`;
}

export function nextLayer(state: TuneState, next: LayerMap, link: LayerMap['figures'][number]): string {
  const where = figureLabel(next, next.figures.indexOf(link));
  const slowest = Math.min(...[...state.figures, ...state.seams].map(({ tempo }) => tempo));
  return `The ${state.map.layer.name} layer holds at ${tempoWord(slowest)}, so the next one is due: ${next.layer.name}, here in ${where}.`;
}

/** `item` is what is to be played, `worst` what has faded most in it. */
export function rusty(state: TuneState, item: LinkState, worst: LinkState, now: Moment): string {
  const sure = worst.rust === 'likely faded' ? 'Likely fading' : 'Beginning to fade';
  const from = item.standing.lastPlayed ? item : worst;
  const { lastCleanTempo, lastPlayed } = from.standing;
  const ago = lastPlayed ? agoWords(lastPlayed, now) : 'a while ago';
  const where = from === item ? '' : ` in ${passageLabels(state.tune, from.link.passage).join(' to ')}`;
  if (lastCleanTempo === null) return `${sure}: last played${where} ${ago}, not clean yet.`;
  return `${sure}: last clean${where} at ${tempoWord(lastCleanTempo)}, last played ${ago}.`;
}

export function warmUp(item: LinkState): string {
  return `To warm up: it holds at ${tempoWord(item.tempo)}, so begin easily.`;
}

export function yourChoice(item: LinkState, goal: number): string {
  if (item.tempo === 0) return `You asked for it: not played yet, and the goal is ${tempoWord(goal)}.`;
  return `You asked for it: clean at ${tempoWord(item.tempo)}, and the goal is ${tempoWord(goal)}.`;
}
