import { listed } from './figures';
import { numberWord, ordinalWord } from './number-words';
import { spoken } from './spoken';
import { stopWords } from './stops';

/** `second fret of the first string`. */
function placeWords(string: number, fret: number): string {
  return fret === 0
    ? `the open ${ordinalWord(string)} string`
    : `${stopWords(fret)} of the ${ordinalWord(string)} string`;
}

/** How two measures that are nearly the same differ. */
export const say = spoken('nearSame', {
  offTheBoard: 'a measure off the board',
  sounds: (second: string, first: string) =>
    `${second} sounds the same as ${first}, and is learned on its own.`,
  /** `where` as the three below say it; `told` is empty where there is too much to tell. */
  differs: (second: string, first: string, where: string, told: readonly string[]) =>
    `${second} is ${first} but for ${where}${told.length > 0 ? `: ${told.join('; ')}` : ''}.`,
  within: { 'first beat': 'the first beat', 'last beat': 'the last beat' },
  /** From 1. */
  inBeats: (beats: readonly number[]) =>
    `${beats.length === 1 ? 'beat' : 'beats'} ${listed(beats.map(numberWord))}`,

  drone: 'the drone',
  strike: (string: number, fret: number) => placeWords(string, fret),
  technique: (technique: string, string: number, fret: number) =>
    `${technique === 'brush' ? 'brush from' : `${technique},`} ${placeWords(string, fret)}`,
  together: (sounds: readonly string[]) => sounds.join(' with '),
  otherFret: (string: number, now: number, before: number) =>
    `${placeWords(string, now)} instead of ${before === 0 ? 'open' : `the ${stopWords(before)}`}`,
  otherwise: (sound: string) => `${sound}, held or fingered otherwise`,
  /** Either may be empty, not both. */
  change: (now: string, before: string) => `${now || 'nothing'} instead of ${before || 'nothing'}`,
});
