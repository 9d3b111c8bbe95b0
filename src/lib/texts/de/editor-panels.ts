import type { say } from '../editor-panels';

export const editorPanels: typeof say = {
  panel: 'Schreiben',
  panels: { notes: 'Töne', fill: 'Muster', place: 'Stelle', measure: 'Takt' },

  fret: 'Bund',
  lowerFrets: (frets) => `${frets}, tiefere Bünde`,
  higherFrets: (frets) => `${frets}, höhere Bünde`,
  sounded: 'Spielweise',

  pattern: 'Muster um einen Melodieton',
  fills: {
    'note-brush-drone': 'Ton, Brush, Bordun',
    'note-drone': 'Ton und Bordun im Wechsel',
    'drop-thumb': 'Mit Drop-Thumb',
  },
  fillHere: 'Hier füllen',
  fillMeasure: 'Takt füllen',
  fillHow:
    'Deine Töne auf den Saiten eins bis vier bleiben. Der ganze Takt wird dort gefüllt, wo ein Ton auf der ersten Stelle des Musters steht.',
  propose: 'Tabulatur aus der Melodie',
  proposeHow:
    'Jeder Ton kommt auf seinen tiefsten Bund auf den Saiten eins bis vier. Verbessere, was schlecht liegt.',

  weight: 'Gewicht',
  finger: 'Finger der linken Hand',
  noFinger: 'keiner',
  length: 'Länge, in ganzen Noten',
  toNext: 'bis zum nächsten Anschlag',
  noNote:
    'Kein Ton auf dieser Saite hier: Wähle erst einen Bund, um ihm ein Gewicht, einen Finger oder eine Länge zu geben.',
  labels: {
    chord: (place) => `Akkord, ${place}`,
    word: (place) => `Wort, ${place}`,
  },
  placesOfBeat: (beat) => `Einteilung von Schlag ${beat}`,
  grains: { usual: 'Wie üblich', halved: 'Halbiert' },
  inThree: 'Zu dritt',
  inFour: 'Zu viert',

  measureLength: 'Länge des Takts',
  shorter: (beats) => `${beats === 1 ? 'Einen Schlag' : 'Einen halben Schlag'} kürzer`,
  longer: (beats) => `${beats === 1 ? 'Einen Schlag' : 'Einen halben Schlag'} länger`,
  asIn: (layer) => `Wie in „${layer}“`,
  copyBefore: (label) => `${label} kopieren, den Takt davor`,
  clear: 'Takt leeren',
  silent: 'Stiller Takt',
  copyOther: 'Aus einem anderen Takt kopieren',

  keys: 'Tasten',
  keysWhen: 'Sie wirken, solange die Tabulatur ausgewählt ist.',
  keyNames: {
    frets: '0 bis 22',
    takeOff: 'Entf',
    undo: 'Strg Z',
    redo: 'Strg Umschalt Z',
    save: 'Strg S',
  },
  keysDo: {
    places: 'die Stelle davor oder danach',
    strings: 'die Saite darüber oder darunter',
    frets: 'der Bund; zwei Ziffern kurz nacheinander',
    right: 'ein einfacher Ton, ein Brush, der Bordun (Daumen)',
    left: 'Drop-Thumb, Hammer-on, Pull-off, Slide',
    tie: 'ein Haltebogen',
    weights: 'angedeutet, betont',
    takeOff: 'nimmt den Ton weg',
    rest: 'eine Pause: leert die Stelle',
    fill: 'füllt mit dem Muster',
    undo: 'zurück',
    redo: 'wieder vor',
    save: 'speichert',
  },
};
