import type { say } from '../add';
import { inFigures, plural } from '../figures';

export const add: typeof say = {
  pageTitle: 'Stück hinzufügen · Phrasewright',
  tunes: '‹ Stücke',
  heading: 'Stück hinzufügen',
  notArrived: 'Was geteilt wurde, ist hier nicht angekommen. Öffne die Datei oder füge den Text ein.',
  notKept: (why) => `Das Stück wurde nicht aufgenommen: ${why}`,
  nothingAdded: 'Deinem Buch wurde nichts hinzugefügt.',
  keep: 'Stück aufnehmen',
  thenMeasure: ['dann sein', 'erster Takt'],
  backToPreview: 'Zurück zur Vorschau',
  thenNothing: ['noch nicht', 'hinzugefügt'],
  guessedEncoding: (encoding) =>
    `Der Text sagt nicht, wie seine Buchstaben geschrieben sind; er wurde als ${encoding} gelesen. Sieh dir den Titel an.`,
  leaveOut: 'Weglassen',
  chooseAgain: 'Noch einmal wählen',
  add: (count) => (count === 1 ? 'In mein Buch aufnehmen' : `${inFigures(count)} Stücke hinzufügen`),
  asTheyStand: ['so, wie es', 'hier steht'],

  added: 'Hinzugefügt',
  addedTunes: (count) =>
    plural(count, {
      one: 'Dieses Stück steht jetzt in deinem Buch.',
      other: `Diese ${inFigures(count)} Stücke stehen jetzt in deinem Buch.`,
    }),
  addAnother: 'Noch eins hinzufügen',

  fromNotation: 'Aus Noten',
  openFile: 'Datei öffnen',
  fileKinds: 'ABC, MusicXML, MIDI oder Tabulatur als Text. Du siehst es dir an, bevor es dazukommt.',
  notationFile: 'Notendatei',
  paste: 'Noten einfügen',
  pasteKinds: 'ABC, MusicXML oder fünf Linien aus Strichen und Bundzahlen.',
  notationAsText: 'Noten als Text',
  lookAtIt: 'Ansehen',
  takeOne: 'Ein weitergegebenes Stück annehmen',
  reading: 'Die Noten werden gelesen.',
  stop: 'Abbrechen',

  several: 'Mehrere nach ihren Titeln',
  severalKept:
    'Jedes wird mit der Stimmung, der Form, den Takten und dem Ziel aufgenommen, die oben gewählt sind. Alles lässt sich Stück für Stück ändern.',
  list: 'Die Liste, ein Titel je Zeile',
  taken: (titles) => `Schon in deinem Buch und deshalb weggelassen: ${titles.join(', ')}.`,
  keepTitles: (count) =>
    count === 0 ? 'Alle aufnehmen' : count === 1 ? 'Dieses aufnehmen' : `Diese ${inFigures(count)} aufnehmen`,

  untitled: 'Stück ohne Titel',
  inThisSource: 'Stücke in dieser Quelle',
  find: 'Stück suchen',
  among: (count) => `unter ${inFigures(count)}`,
  noneFound: 'Kein Stück hat das im Titel.',
  firstOf: (shown, found) =>
    `Die ersten ${shown} von ${inFigures(found)}. Gib einen Teil des Titels ein, um weniger zu sehen.`,
  found: (count) => plural(count, { one: '1 Stück.', other: `${inFigures(count)} Stücke.` }),
  mostAtOnce: (most) => `Mehr als ${most} auf einmal geht nicht; nimm erst diese auf.`,
  anotherSource: 'Andere Quelle',
  lookAt: (count) => (count === 1 ? '1 Stück ansehen' : `${inFigures(count)} Stücke ansehen`),

  title: 'Titel',
  titleTaken: 'Ein Stück mit diesem Titel steht schon in deinem Buch. Dieses kommt daneben.',
  form: 'Form',
  key: 'Tonart',
  noKey: 'nicht angegeben',
  meter: 'Taktart',
  goal: 'Ziel',
  beatsAMinute: 'Schläge in der Minute',
  melody: 'Melodie',
  voice: (number) => `Stimme ${number}`,
  toLearn: (measures, toLearn) =>
    `${inFigures(measures)} ${measures === 1 ? 'Takt' : 'Takte'}, davon ${inFigures(toLearn)} zu lernen.`,
  melodyOnly: 'Die Melodie, ohne Griffe.',
  measures: 'Die Takte',
  correct: 'Erst verbessern',

  places: (count) =>
    plural(count, {
      one: 'Eine Stelle zum Ansehen',
      other: `${inFigures(count)} Stellen zum Ansehen`,
    }),
  more: (count) => `${inFigures(count)} weitere`,
};
