import { spoken } from './spoken';

/** The ways out of the book for a tune, and what became of a file. */
export const say = spoken('share', {
  share: 'Share',
  layer: 'Layer',
  link: 'Link or code',
  linkWhat: 'the tune with all its layers, for another’s book',
  sheet: 'Practice sheet',
  sheetWhat: 'the tab on one page, to print',
  close: 'Close',
  formats: {
    musicxml: { name: 'MusicXML', what: 'notes and tab, for a score program' },
    abc: { name: 'ABC', what: 'the melody as text' },
    tab: { name: 'Typed tab', what: 'the tab as text, to read anywhere' },
    midi: { name: 'MIDI', what: 'the sound as it is played' },
  },
  /** What became of a file. */
  became: {
    sent: 'Handed on.',
    left: 'Not sent.',
    saved: 'Saved as a file.',
  },
  notMade: 'The file could not be made. The tune is safe; reload the page and try again.',
});
