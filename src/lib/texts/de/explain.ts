import type { say } from '../explain';
import { capital, listed } from '../figures';
import { midSentence } from './mid-sentence';
import { counted, numberWord } from './number-words';

const LONGER = {
  figure: 'einem Takt',
  seam: 'einem Übergang',
  phrase: 'einer Phrase',
  part: 'einem Teil',
  tune: 'dem ganzen Stück',
};
const misses = (count: number): string =>
  `${counted(count, 'ein Fehlversuch', 'Fehlversuche')} irgendwo in etwas Längerem`;
const label = (written: string | null): string => written ?? 'ein Takt';

export const explain: typeof say = {
  tuneGone: 'Das Stück zu dieser Passage ist nicht im Buch.',
  passageGone: (title) => `Diese Passage gibt es in ${title} nicht mehr.`,
  notPlayed: (passage, title, goal) =>
    `${title}, ${midSentence(passage)}: noch nicht gespielt; das Ziel ist ${goal}.`,
  stands: (passage, title, { tempo, low, high }, goal) =>
    `${title}, ${midSentence(passage)}: 17 von 20 Mal sauber bei ${tempo}, wahrscheinlich zwischen ${low} und ${high}; das Ziel ist ${goal}.`,

  putAway: 'Das Stück ist weggelegt, deshalb nimmt kein Plan es auf.',
  notCalledFor: 'Gerade muss daran nichts geübt werden; du kannst es trotzdem jederzeit wählen.',

  beginsSlow: (begin) =>
    `Eine Übung beginnt bei ${begin}: langsam genug, dass ein Durchgang wahrscheinlich sauber wird.`,
  beginsAtGoal: (begin) => `Eine Übung beginnt beim Ziel, ${begin}: Mehr ist nicht verlangt.`,
  beginsComfortable: (begin) =>
    `Eine Übung beginnt bei ${begin}, wo sie 19 von 20 Mal sauber gelingen sollte.`,
  estimateWide: ({ tempo, low, high }) =>
    `Die Schätzung ist noch unsicher, ${low} bis ${high}, deshalb liegt der Anfang deutlich unter ${tempo}.`,
  estimateNarrow: ({ tempo, low, high }) =>
    `Die Schätzung ist ziemlich sicher, ${low} bis ${high}, deshalb liegt der Anfang nahe bei ${tempo}.`,
  climbs: (toward) => `Von dort steigert sie sich in Richtung ${toward}, immer um ein paar Schläge.`,

  noPass: 'Noch ist kein Durchgang gespielt.',
  passes: (passes, days, clean, newest) =>
    capital(
      `${counted(passes, 'ein Durchgang', 'Durchgänge')} an ${counted(days, 'einem Tag', 'Tagen')}: ${clean} der letzten ${newest} sauber.`,
    ),
  longer: (newest, from) => {
    const words = from.map(([kind, passes], index) => {
      const many = passes === 1 ? 'einer' : numberWord(passes);
      const verb = passes === 1 ? 'stammt' : 'stammen';
      return `${index === 0 ? `${verb} ` : ''}${many} aus ${LONGER[kind]}`;
    });
    return `Von den letzten ${newest} ${listed(words)}.`;
  },
  day: (day, { clean, of, vague }, tempos) => {
    if (of === 0) return `${capital(day)}: ${misses(vague)}, bei ${tempos}.`;
    return `${capital(day)}: ${clean} von ${of} sauber bei ${tempos}${vague > 0 ? `, dazu ${misses(vague)}` : ''}.`;
  },

  stood: (first, newest, days) =>
    `Am ersten Tag (${first.day}) stand es bei ${first.tempo}, am letzten von ${counted(days, 'einem Tag', 'Tagen')} (${newest.day}) bei ${newest.tempo}.`,
  sunk: (from, to) => `Seither ist es vermutlich von ${from} auf ${to} gesunken.`,
  lastPlayed: {
    fresh: (day) => `Zuletzt gespielt: ${day}. Nach dem Gedächtnismodell ist es noch frisch.`,
    'beginning to fade': (day) =>
      `Zuletzt gespielt: ${day}. Nach dem Gedächtnismodell beginnt es zu verblassen.`,
    'likely faded': (day) =>
      `Zuletzt gespielt: ${day}. Nach dem Gedächtnismodell ist es wahrscheinlich verblasst.`,
  },
  isSettled: 'Es gilt als gefestigt: Dafür braucht es zwei Tage und drei Viertel des Ziels.',
  notSettled: 'Es gilt noch nicht als gefestigt: Dafür braucht es zwei Tage und drei Viertel des Ziels.',

  measureAt: (written, tempo) => `${label(written)} bei ${tempo}`,
  measureNotPlayed: (written) => `${label(written)} noch nicht gespielt`,
  guessByEnds: (ends) =>
    `Die erste Schätzung richtet sich nach dem, was der Übergang verbindet (${listed(ends)}): Er ist vermutlich etwa ein Zehntel langsamer als seine Takte.`,
  guessByGoal: 'Davon ist noch nichts gespielt, deshalb richtet sich die erste Schätzung nur nach dem Ziel.',
  guessBySlowest: (passage, tempo) =>
    `Die erste Schätzung richtet sich nach der langsamsten Stelle darin (${midSentence(passage)} bei ${tempo}) und liegt etwas darunter.`,
  guessByBook:
    'Von diesem Stück ist noch nichts gespielt, deshalb richtet sich die erste Schätzung danach, wie viel deine anderen Takte von ihren Zielen erreichen; gibt es keine, nach dem halben Ziel.',
  guessWithoutTab: (slowest, fastest) =>
    `Ohne Tabulatur richtet sich die erste Schätzung nach den Takten dieses Stücks, die du schon gespielt hast (${slowest} bis ${fastest}), und danach, wie viel du sonst von einem Ziel erreichst.`,
  guessByLike: (measures) =>
    `Die erste Schätzung richtet sich nach den Takten, die sich für die Hände am ähnlichsten anfühlen (${listed(measures)}), und danach, wie viel du sonst von einem Ziel erreichst.`,
};
