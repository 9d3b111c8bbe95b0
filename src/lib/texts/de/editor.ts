import type { say } from '../editor';
import { listed, plural } from '../figures';
import { numberWord } from './number-words';

const all = (count: number): string => (count === 2 ? 'beide' : `alle ${numberWord(count)}`);
const left = (keeper: string | null): string =>
  keeper === null
    ? 'die bisherigen sind aufgehoben und kommen wieder, wenn er wieder so geschrieben wird'
    : `die bisherigen bleiben bei ${keeper}`;

export const editor: typeof say = {
  title: 'Takt schreiben · Phrasewright',
  noMeasure: 'Diesen Takt gibt es nicht',
  notInBook: 'Dieser Takt steht nicht in deinem Buch. Vielleicht wurde er aus dem Stück genommen.',
  tunes: 'Stücke',
  measure: (label) => `Takt ${label}`,
  grid: (label, beats) => `Takt ${label}, ${beats}`,
  beats: (count, figure) => `${figure} ${count > 1 ? 'Schläge' : 'Schlag'}`,

  strings: {
    1: 'erste Saite',
    2: 'zweite Saite',
    3: 'dritte Saite',
    4: 'vierte Saite',
    5: 'kurze Saite',
  },
  noNote: 'nichts',
  note: (technique, fret) => `${technique} ${fret === 0 ? 'leer' : `Bund ${fret}`}`,
  finger: (finger) => `Finger ${finger}`,

  // five in a row on a phone: short words
  tools: 'Dieser Takt',
  save: 'Speichern',
  undo: 'Zurück',
  redo: 'Vor',
  rest: 'Pause',
  fill: 'Füllen',
  hear: 'Hören',
  stop: 'Stopp',

  saved: 'Gespeichert.',
  savedAnd: (passes) => `Gespeichert. ${passes}`,
  keepOpen:
    'Lass diese Seite offen. Ändere den Takt oder geh einen Schritt zurück, und speichere noch einmal.',
  keptHere:
    'Was du geschrieben hast, ist auf diesem Gerät aufgehoben. Ändere es oder geh einen Schritt zurück, und speichere noch einmal.',
  notKept: 'Was du schreibst, ist erst aufgehoben, wenn du es speicherst.',
  takenUp: 'Weiter, wo du aufgehört hast. „Zurück“ führt zu dem, was im Buch steht.',
  aside: 'Dieser Takt wurde auch anderswo geschrieben. Was du geschrieben hast, ist beiseitegelegt.',
  writeHere: 'Hier einsetzen',
  letGo: 'Verwerfen',

  ways: 'Takte',
  before: (label) => `Takt davor, ${label}`,
  onTo: (label) => `Weiter zu ${label}`,
  saveOnTo: (label) => `Speichern, weiter zu ${label}`,
  next: 'Nächster Takt',
  toTune: 'Zum Stück',
  saveToTune: 'Speichern, zum Stück',
  last: 'Letzter Takt',

  shared: 'Geteilter Takt',
  sharing: (labels) => `${listed(labels)} teilen sich diesen Takt.`,
  changeAll: (count) => `${count === 2 ? 'Beide' : `Alle ${numberWord(count)}`} ändern`,
  changeOnly: (label) => `Nur ${label}`,
  layersBelowKeep:
    'Die Fassungen darunter behalten, was sie haben, und was darauf gespielt wurde, bleibt dort.',
  passesFollow: (count, label) =>
    `Änderst du ${all(count)}, bleibt das, was du gespielt hast, dabei. Änderst du nur ${label}, bleibt es ` +
    (count === 2 ? 'beim anderen.' : 'bei den anderen.'),
  goOn: 'Weiterschreiben',
  leave: 'Verlassen und später entscheiden',

  otherLength: (label, isLonger) =>
    `Was du auf ${label} gespielt hast, bleibt bei diesem Takt, obwohl er jetzt ${isLonger ? 'länger' : 'kürzer'} ist.`,
  begins: (label, keeper) => `${label} beginnt ohne Durchgänge; ${left(keeper)}.`,
  takesOver: (label, by, keeper) =>
    `${label} übernimmt die Durchgänge von ${by ?? 'dem Takt, der er wieder wird'}; ${left(keeper)}.`,
  layer: (name) => `der Fassung „${name}“`,

  allOnNeck: 'Jeder Ton der Melodie liegt auf dem Griffbrett.',
  outOfReach: (tuning, pitches) =>
    `In ${tuning} nicht erreichbar: ${listed(pitches)}. ` +
    plural(pitches.length, {
      one: 'Schreib ihn dorthin, wo du ihn haben willst.',
      other: 'Schreib sie dorthin, wo du sie haben willst.',
    }),
};
