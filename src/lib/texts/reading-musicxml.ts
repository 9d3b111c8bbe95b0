import { inFigures } from './figures';
import { spoken } from './spoken';

/** What the reader of MusicXML says behind a place, and why a packed score cannot be opened. */
export const say = spoken('readingMusicxml', {
  tooLong: 'the file is longer than 20 million characters; nothing was read',
  notWellFormed: (why: string) => `this is no well-formed XML (${why})`,
  ownEntities: 'the file declares entities of its own, which is not safe; nothing was read',
  tooDeep: (most: number) => `elements are nested more than ${most} deep`,
  tooManyElements: 'the file has more than a million elements',
  noScore: 'this is no MusicXML score: score-partwise or score-timewise is looked for',
  noNotes: 'no notes were found',
  tooManyMeasures: (most: number) => `more than ${most} measures; what follows is left out`,

  noSum: 'the durations of this measure cannot be added up; left out',
  otherStrings: 'the tab is not for five strings; it is read as a melody',
  divisions: 'these divisions of a quarter note cannot be read',
  /** `tag` is the name of the element. */
  duration: (tag: string) => `the duration of this ${tag} cannot be read`,
  graces: 'grace notes take no time and are left out',
  noteDuration: 'the duration of this note cannot be read; it is left out',
  noPitch: 'a note without a pitch is left out',
  unheard: 'a note that nobody can hear is left out',
  tooManyVoices: (most: number) => `more than ${most} voices; the rest is left out`,
  tooManyNotes: 'more notes than a measure can hold; left out',
  voice: (voice: string, staff: number) => `voice ${voice}${staff === 1 ? '' : ` of staff ${staff}`}`,

  packed: (why: string) => `This .mxl file cannot be read: ${why}.`,
  damaged: 'it is damaged or no zip file',
  encrypted: 'it is encrypted',
  noScoreInside: 'no score was found in it',
  tooManyFiles: (most: number) => `it holds more than ${inFigures(most)} files`,
  tooLarge: (megabytes: number) => `it would unpack to more than ${megabytes} MB`,
  tooPacked: (times: number) => `it would unpack to more than ${times} times its size, as no score does`,
});
