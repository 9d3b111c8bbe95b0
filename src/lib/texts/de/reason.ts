import type { say } from '../reason';
import { numberWord } from './number-words';

const RANKS = ['', '', 'zweit', 'dritt', 'viert', 'fünft', 'sechst'];

const slowestOf = (place: number): string => `Die ${RANKS[place] ?? ''}langsamste Stelle`;
/** `Beide Übergänge`: „alle zwei Übergänge“ would be every second one. */
const allJoins = (joins: number): string =>
  joins === 2 ? 'Beide Übergänge' : `Alle ${numberWord(joins)} Übergänge`;
const tempoOf = (tempo: string, goal: string | null): string =>
  goal === null ? tempo : `${tempo} von ${goal}`;

export const reason: typeof say = {
  slowestByGoal: (place, tempo, goal) =>
    `${slowestOf(place)}: sauber bei ${tempo}, und das Ziel ist ${goal}.`,
  slowestByNeighbours: (place, tempo, beside, holds) =>
    `${slowestOf(place)}: sauber bei ${tempo}, während ${beside === 1 ? `die daneben bei ${holds} sitzt` : `die Nachbarn bei ${holds} sitzen`}.`,
  joinDrags: (tempo, holds) =>
    `Der Übergang schleppt: sauber bei ${tempo}, während seine beiden Takte bei ${holds} sitzen.`,
  joinIntoItselfDrags: (tempo, holds) =>
    `Der Übergang schleppt: sauber bei ${tempo}, während der Takt selbst bei ${holds} sitzt.`,
  joinUntried: (holds) =>
    `Beide Takte sitzen jetzt, bei ${holds} oder schneller. Den Übergang dazwischen hast du noch nicht versucht.`,
  joinIntoItselfUntried:
    'Der Takt sitzt jetzt. Den Übergang von seinem Ende in seinen Anfang hast du noch nicht versucht.',
  heldBackByMeasure: (label, tempo, goal) =>
    `Takt ${label} bremst, bisher sauber bei ${tempoOf(tempo, goal)}: hier mit dem, was um ihn herum steht.`,
  heldBackByJoin: (before, after, tempo, goal) =>
    `Der Übergang von ${before} nach ${after} bremst, bisher sauber bei ${tempoOf(tempo, goal)}: hier mit dem, was um ihn herum steht.`,
  oneByOne: (measures, tempo, goal) =>
    `Einzeln gelingen die Takte sauber bei ${tempoOf(tempo, goal)}: hier ${numberWord(measures)} in einem Zug.`,
  joinsHold: (part, joins, tempo) =>
    `${joins === 1 ? `Der Übergang in Teil ${part} sitzt` : `${allJoins(joins)} in Teil ${part} sitzen`} bei ${tempo} oder schneller. Jetzt der Teil in einem Zug.`,
  wholePart: (part, tempo, goal) =>
    `Teil ${part} ganz und in einem Zug: Seine langsamste Stelle gelingt sauber bei ${tempo}, das Ziel ist ${goal}.`,
  everyMeasureKnown: (tempo) =>
    `Du kennst jeden Takt, und die langsamste Stelle gelingt sauber bei ${tempo}: Das ganze Stück bringt alle zusammen voran.`,
  allHolds: 'Jeder Takt und jeder Übergang sitzt. Jetzt das ganze Stück.',
  partsHold: (parts, tempo) => {
    const who = parts === 1 ? 'Der Teil sitzt' : parts === 2 ? 'Beide Teile sitzen' : 'Die Teile sitzen';
    return `${who} bei ${tempo} oder schneller. Jetzt das ganze Stück.`;
  },
  playedThrough: (tempo, goal) => `Durchgespielt sitzt es bei ${tempo}, und das Ziel ist ${goal}.`,
  newBegins: (title) => `Neu: Damit beginnt ${title}.`,
  newAfter: (label, holds) => {
    const before = label === null ? 'einen Takt' : `Takt ${label}`;
    return holds === null
      ? `Neu: Das folgt beim Spielen auf ${before}.`
      : `Neu: Das folgt auf ${before}, der bei ${holds} sitzt.`;
  },
  nextLayer: (layer, holds, next, label) =>
    `Die Fassung „${layer}“ sitzt bei ${holds}, also ist die nächste an der Reihe: „${next}“, hier in ${label === null ? 'einem Takt' : `Takt ${label}`}.`,
  fading: (isLikely, where, clean, ago) => {
    const sure = isLikely ? 'Wahrscheinlich verblasst' : 'Beginnt zu verblassen';
    const [first, last] = [where[0], where.at(-1)];
    const place = first === undefined ? '' : first === last ? ` in ${first}` : ` in ${first} bis ${last}`;
    const when = ago ?? 'vor einer Weile';
    if (clean === null) return `${sure}: zuletzt ${when}${place} gespielt, noch nicht sauber.`;
    return `${sure}: zuletzt sauber${place} bei ${clean}, zuletzt ${when} gespielt.`;
  },
  warmUp: (holds) => `Zum Aufwärmen: Es sitzt bei ${holds}, also fang locker an.`,
  yourChoice: (tempo, goal) =>
    `Dein Wunsch: ${tempo === null ? 'noch nicht gespielt' : `sauber bei ${tempo}`}, und das Ziel ist ${goal}.`,
  rules: {
    'slowest link': 'Ein Stück ist so schnell wie seine langsamste Stelle, also wird die zuerst geübt.',
    'slow seam':
      'Wo zwei Takte sitzen und ihr Übergang noch nicht, ist es der Übergang, der das Stück aufhält.',
    'open seam': 'Ein Übergang wird versucht, sobald seine beiden Takte gefestigt sind.',
    'in its surroundings':
      'Eine schwere Stelle wird erst allein geübt und dann mit dem, was um sie herum steht; dort muss sie sitzen.',
    'join the part': 'Was einzeln sitzt, wird in einem Zug gespielt, bevor das ganze Stück drankommt.',
    'play it through': 'Im Ganzen gespielt kommen alle Takte und alle Übergänge auf einmal voran.',
    'new figure': 'Neue Takte kommen der Reihe nach, wenige auf einmal, aus einem Stück am Tag.',
    'next layer': 'Eine Fassung kommt dazu, wenn die vorige bei drei Vierteln des Ziels gefestigt ist.',
    rusty: 'Was bald verloren ginge, wird aufgefrischt, bevor du es neu lernen musst.',
    'warm-up': 'Eine Sitzung beginnt mit etwas, das gefestigt ist und eine Weile nicht gespielt wurde.',
    'your choice': 'Was du dir wünschst, kommt vor allem anderen in den Plan.',
  },
};
