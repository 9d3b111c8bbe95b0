import type { say } from '../line';
import { midSentence } from './mid-sentence';

export const line: typeof say = {
  isNew: 'neu',
  keptIn: 'bleibt drin',
  minutesUnit: 'min',
  restFirst: (minutes) => `Leg das Banjo zuerst ${minutes} Minuten weg.`,
  rest: (minutes) => `Leg das Banjo ${minutes} Minuten weg.`,
  tuneUpTo: 'Umstimmen auf',

  from: 'ab',
  toward: 'Richtung',
  cleanAt: 'sauber bei',
  goal: 'Ziel',
  drillNow: 'Jetzt üben',
  whyThisTempo: 'Warum dieses Tempo',
  keepIn: 'Drin lassen',
  notToday: 'Heute nicht',
  earlier: 'Früher',
  later: 'Später',
  somethingElse: 'Lieber etwas anderes',
  nothingElse: (minutes) => `Sonst wartet heute nichts von etwa ${minutes} Minuten.`,
  insteadOf: (passage) => `Ersatz für ${midSentence(passage)}`,
  elseNotRead: 'Was es sonst gibt, konnte nicht gelesen werden. Schließ die Zeile und öffne sie noch einmal.',

  isLeftOut: (passage) => `Heute ausgelassen: ${passage}.`,
  takesPlace: (instead, passage) => `Ausgetauscht: ${passage} gegen ${midSentence(instead)}.`,
  isNumber: (passage, place, of) => `${passage}: jetzt Nummer ${place} von ${of}.`,
  mayComeBack: (passage) => `Heute wieder möglich: ${passage}.`,

  leftOutByYou: 'Von dir ausgelassen:',
  putBack: 'Wieder aufnehmen',
  askedNew: 'Du wolltest noch etwas Neues.',
  notAfterAll: 'Doch nicht',
  oneMoreNew: 'Noch etwas Neues',
  whatWaits: 'Was wartet, und warum',
};
