import { spoken } from './spoken';

/** What a measure is written with: notes, patterns, what a place has, the measure as a whole, keys. */
export const say = spoken('editorPanels', {
  panel: 'Write',
  panels: { notes: 'Notes', fill: 'Pattern', place: 'Place', measure: 'Measure' },

  fret: 'Fret',
  /** @param frets as the button shows them: `0–12`, `13+` */
  lowerFrets: (frets: string) => `${frets}, lower frets`,
  higherFrets: (frets: string) => `${frets}, higher frets`,
  sounded: 'How it is sounded',

  pattern: 'Pattern around a melody note',
  fills: {
    'note-brush-drone': 'Note, brush, drone',
    'note-drone': 'Note and drone in turn',
    'drop-thumb': 'With drop-thumb',
  },
  fillHere: 'Fill here',
  fillMeasure: 'Fill the measure',
  fillHow:
    'Your notes on strings one to four stay. The whole measure is filled where a note stands on the first place of the pattern.',
  propose: 'Tab from the melody',
  proposeHow: 'Each note goes to its lowest fret on strings one to four. Correct what lies badly.',

  weight: 'Weight',
  finger: 'Left-hand finger',
  noFinger: 'none',
  length: 'Length, in whole notes',
  toNext: 'to the next strike',
  noNote: 'No note on this string here: choose a fret first to give it a weight, a finger or a length.',
  /** @param place as it is said: `beat one, and` */
  labels: {
    chord: (place: string) => `Chord, ${place}`,
    word: (place: string) => `Word, ${place}`,
  },
  placesOfBeat: (beat: number) => `Places of beat ${beat}`,
  grains: { usual: 'As usual', halved: 'Halved' },
  inThree: 'In three',
  inFour: 'In four',

  measureLength: 'Length of the measure',
  shorter: (beats: 0.5 | 1) => `${beats === 1 ? 'One beat' : 'Half a beat'} shorter`,
  longer: (beats: 0.5 | 1) => `${beats === 1 ? 'One beat' : 'Half a beat'} longer`,
  asIn: (layer: string) => `As in ${layer}`,
  copyBefore: (label: string) => `Copy ${label}, the one before`,
  clear: 'Clear the measure',
  silent: 'A silent measure',
  copyOther: 'Copy from another measure',

  keys: 'Keys',
  keysWhen: 'They work while the tab has the focus.',
  /** As they are written on a keyboard. */
  keyNames: {
    frets: '0 to 22',
    takeOff: 'Delete',
    undo: 'Ctrl Z',
    redo: 'Ctrl Shift Z',
    save: 'Ctrl S',
  },
  keysDo: {
    places: 'the place before or after',
    strings: 'the string above or below',
    frets: 'the fret; two digits one soon after the other',
    right: 'a plain note, a brush, the drone (thumb)',
    left: 'drop-thumb, hammer-on, pull-off, slide',
    tie: 'a tie',
    weights: 'ghost, accent',
    takeOff: 'takes the note off',
    rest: 'a rest: clears the place',
    fill: 'fills the pattern in',
    undo: 'undo',
    redo: 'redo',
    save: 'saves',
  },
});
