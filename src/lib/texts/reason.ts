import { counted, numberWord, ordinalWord } from './number-words';
import { spoken } from './spoken';

/** The slowest link of a tune, or the second slowest. */
const slowestOf = (place: number): string => `The ${place > 1 ? `${ordinalWord(place)} ` : ''}slowest link`;
/** A measure's label; some have none. */
const measure = (label: string | null): string => label ?? 'a measure';
/** A tempo on its way to the goal; without one where it is there. */
const tempoOf = (tempo: string, goal: string | null): string =>
  goal === null ? tempo : `${tempo} of ${goal}`;

/** Why a passage is in the plan, in one sentence or two. Tempos are whole beats a minute. */
export const say = spoken('reason', {
  slowestByGoal: (place: number, tempo: string, goal: string) =>
    `${slowestOf(place)}: clean at ${tempo}, and the goal is ${goal}.`,
  /** `beside`: how many neighbours it has; `holds`: the tempo of the slowest of them. */
  slowestByNeighbours: (place: number, tempo: string, beside: number, holds: string) =>
    `${slowestOf(place)}: clean at ${tempo}, while ${beside === 1 ? 'the one beside it holds' : 'its neighbours hold'} at ${holds}.`,
  joinDrags: (tempo: string, holds: string) =>
    `The join drags: clean at ${tempo}, while both its measures hold at ${holds}.`,
  joinIntoItselfDrags: (tempo: string, holds: string) =>
    `The join drags: clean at ${tempo}, while the measure itself holds at ${holds}.`,
  joinUntried: (holds: string) =>
    `Both measures hold now, at ${holds} or better. The join between them is untried.`,
  joinIntoItselfUntried: 'The measure holds now. The join from it into itself is untried.',
  heldBackByMeasure: (label: string, tempo: string, goal: string | null) =>
    `${label} holds it back, clean at ${tempoOf(tempo, goal)}: here with what is around it.`,
  heldBackByJoin: (before: string, after: string, tempo: string, goal: string | null) =>
    `The join of ${before} and ${after} holds it back, clean at ${tempoOf(tempo, goal)}: here with what is around it.`,
  oneByOne: (measures: number, tempo: string, goal: string | null) =>
    `One by one its measures come out clean at ${tempoOf(tempo, goal)}: here ${numberWord(measures)} in one go.`,
  joinsHold: (part: string, joins: number, tempo: string) =>
    `${joins === 1 ? 'The join' : `All ${counted(joins, 'join')}`} of part ${part} ${joins === 1 ? 'holds' : 'hold'} at ${tempo} or better. Now the part in one go.`,
  wholePart: (part: string, tempo: string, goal: string) =>
    `All of part ${part} in one go: its slowest place comes out clean at ${tempo}, the goal is ${goal}.`,
  everyMeasureKnown: (tempo: string) =>
    `Every measure is known and the slowest place comes out clean at ${tempo}: the whole tune brings them all on together.`,
  allHolds: 'Every measure and every join holds. Now the whole tune.',
  partsHold: (parts: number, tempo: string) => {
    const who = parts === 1 ? 'The part holds' : parts === 2 ? 'Both parts hold' : 'The parts hold';
    return `${who} at ${tempo} or better. Now the whole tune.`;
  },
  playedThrough: (tempo: string, goal: string) =>
    `It holds at ${tempo} played through, and the goal is ${goal}.`,
  newBegins: (title: string) => `New: it begins ${title}.`,
  /** `label`: of the measure before it, and the tempo at which that one holds; `null`: not known. */
  newAfter: (label: string | null, holds: string | null) =>
    holds === null
      ? `New: it comes after ${measure(label)} in playing order.`
      : `New: it comes after ${measure(label)}, which holds at ${holds}.`,
  nextLayer: (layer: string, holds: string, next: string, label: string | null) =>
    `The ${layer} layer holds at ${holds}, so the next one is due: ${next}, here in ${measure(label)}.`,
  /**
   * `where`: the labels of what has faded, where that is not the passage itself. `clean`: the tempo of the last clean
   * pass; `ago`: when it was last played; `null`: not known.
   */
  fading: (isLikely: boolean, where: readonly string[], clean: string | null, ago: string | null) => {
    const sure = isLikely ? 'Likely fading' : 'Beginning to fade';
    const place = where.length > 0 ? ` in ${where.join(' to ')}` : '';
    const when = ago ?? 'a while ago';
    if (clean === null) return `${sure}: last played${place} ${when}, not clean yet.`;
    return `${sure}: last clean${place} at ${clean}, last played ${when}.`;
  },
  warmUp: (holds: string) => `To warm up: it holds at ${holds}, so begin easily.`,
  /** `tempo`: where it is clean; `null`: not played yet. */
  yourChoice: (tempo: string | null, goal: string) =>
    `You asked for it: ${tempo === null ? 'not played yet' : `clean at ${tempo}`}, and the goal is ${goal}.`,
  /** The rule behind each kind of reason: what the explanation adds to the reason itself. */
  rules: {
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
  },
});
