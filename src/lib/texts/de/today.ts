import { capital } from '../figures';
import type { say } from '../today';
import { counted } from './number-words';

export const today: typeof say = {
  title: 'Heute · Phrasewright',
  app: 'Phrasewright',
  today: 'Heute',
  understood: 'Verstanden',
  reading: 'Deine Durchgänge werden gelesen',
  readingSoFar: (percent) => `Deine Durchgänge werden gelesen: ${percent} %`,

  checkIn: 'Vor dem Üben',
  iHave: 'Ich habe',
  minutes: (minutes) => `${minutes} Minuten`,
  banjoIsIn: 'das Banjo steht in',
  anyTuning: 'beliebiger',
  tuning: 'Stimmung',
  handsFeel: 'und meine Hände sind',
  hands: { fresh: 'frisch', stiff: 'steif', tired: 'müde', sore: 'wund' },

  goOn: 'Weiter',
  begin: 'Anfangen',
  whereLeft: 'wo du aufgehört hast',
  fromToward: (from, toward) => `ab ${from}, Richtung ${toward}`,

  passages: (count) => capital(counted(count, 'eine Passage', 'Passagen')),
  allMinutes: (minutes, tuning) => `${minutes} Minuten${tuning === null ? '' : `, alles in ${tuning}`}`,
  minutesLeft: (left, minutes) => `Noch ${left} von ${minutes} Minuten.`,
  minutesPlayed: (minutes) => `Die ${minutes} Minuten sind gespielt. Das hier wäre eine Zugabe.`,
  nothingToPlan: 'Nichts zu planen',
  nothingElseFits: 'Was es sonst gibt, passt weder in die Zeit noch zur Stimmung.',
  noTuneFits: (tuning) =>
    `Kein Stück passt zu ${tuning}. Wähle „beliebige Stimmung“ oder füge ein Stück hinzu.`,
  noTuneInPlan: 'Kein Stück ist im Plan: Füge eins hinzu, oder hol ein weggelegtes wieder hervor.',
  passagesOfToday: 'Passagen für heute',
  readingPlayed: 'Was du gespielt hast, wird gelesen.',
  stopWhenItHurts:
    'Hör auf, wenn etwas wehtut, kribbelt oder taub wird. Geht es nicht weg, geh zu einer Ärztin oder einem Arzt. Mach nach 25 Minuten eine Pause.',

  backUp: 'Jetzt sichern',
  notNow: 'Nicht jetzt',
  allOnDevice: 'Alles ist jetzt auf diesem Gerät. Ein Netz brauchst du nicht.',
  newVersionHeldUp: 'In einem anderen Tab ist eine Übung offen. Beende sie dort, dann lade die neue Version.',
  newVersion: 'Eine neue Version ist da. Sie wird geladen, wenn du es sagst.',
  loadNow: 'Jetzt laden',
};
