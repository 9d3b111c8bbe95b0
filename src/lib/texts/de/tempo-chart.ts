import { listed } from '../figures';
import type { say } from '../tempo-chart';

export const tempoChart: typeof say = {
  picture: (first, newest, goal, links, ahead) => {
    const on = ({ tempo, day }: typeof newest) => `${tempo} am ${day}`;
    const course = first ? `von ${on(first)} auf ${on(newest)}` : on(newest);
    const others = links.map(({ name, tempo }) => `; ${name}, bei ${tempo}`).join('');
    const end = ahead
      ? ` Die Vorhersage reicht bis zum ${ahead.day}: dann zwischen ${ahead.low} und ${ahead.high}.`
      : '';
    return `Gefestigtes Tempo, ${course}; Ziel ${goal}${others}.${end}`;
  },
  now: 'jetzt',
  goal: (tempo) => `Ziel ${tempo}`,
  keyTune: 'das Stück, seine langsamste Stelle',
  keyLinks: (names) =>
    `${listed(names)}, ${names.length === 1 ? 'die nächstlangsamste' : 'die nächstlangsamsten'}`,
  keyForecast: 'Vorhersage, 8 von 10',
  title: (tune, goal) => `${tune}: gefestigtes Tempo, Ziel ${goal}`,
  keep: 'Als Bild behalten',
  noPicture: 'Dieser Browser macht kein Bild davon. Die Tabelle darunter lässt sich drucken.',
  failed: 'Das Diagramm konnte nicht geladen werden. Seine Zahlen stehen in der Tabelle darunter.',
  span: 'Zeitraum',
  weeks: (count) => `${count} Wochen`,
  months: (count) => `${count} Monate`,
  allOfIt: 'alles',
  touch: 'Tippe auf einen Tag, um die Durchgänge dahinter zu sehen.',
  orBetween: (low, high) => `, wahrscheinlich zwischen ${low} und ${high}.`,
  behind: (link) => `Die Durchgänge dahinter: ${link}`,
  tables: 'gefestigtes Tempo nach Übetagen',
  byDay: (tune, goal) => `${tune}: gefestigtes Tempo nach Übetagen, Ziel ${goal}`,
  linksByDay: 'Die nächstlangsamsten Stellen: gefestigtes Tempo nach Übetagen',
  ahead: 'Vorhersage, wenn es so weitergeht wie an den letzten Übetagen; ein Datum verspricht sie nicht',
  day: 'Tag',
  around: 'Etwa am',
  tempo: 'Tempo',
  likelyBetween: 'Wohl zwischen',
  aheadBetween: '8-mal von 10 zwischen',
  lowAndHigh: (low, high) => `${low} und ${high}`,
  slowestLink: 'Langsamste Stelle',
};
