import { spoken } from './spoken';

/** What the reader of ABC says behind a place. */
export const say = spoken('readingAbc', {
  tooLong: 'this text is longer than any tunebook; nothing was read',
  noTune: 'no tune was found: a tune of ABC begins with X: and a number',
  strange: (sign: string) => `"${sign}" is not music that can be read here; left out`,
  strangeLine: 'the rest of this line does not look like music; left out',
  noteLength: 'the length of this note cannot be kept; left out',
  graces: (count: number) =>
    `${count === 1 ? 'a group of grace notes is' : `${count} groups of grace notes, from here on, are`} left out of the melody`,
  tuneTooLong: 'this is longer than any tune; what follows is left out',
  unknownKey: 'this key is not known; the notes are read without one',
  noKey: 'the music begins without a key (K:); read in none',
  unknownMeter: 'this meter is not known; the one before holds',
  unknownUnit: 'this length of notes is not known; the one before holds',
});
