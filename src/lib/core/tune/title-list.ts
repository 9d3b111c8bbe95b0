import { say } from '../../texts/tune-draft';
import { TITLE_MAX } from './limits';

/** Tunes that can be added by title in one go. */
export const TITLES_MAX = 200;

export interface TitleList {
  /** To be added, in the order written; each once, whether in capitals or not. */
  titles: string[];
  /** Those that the book has. */
  taken: string[];
  /** What is wrong with the list, as a sentence; `null` when all of it can be added. */
  problem: string | null;
}

/** Reads titles, one a line; numbers and marks of a list before them are left out. */
export function readTitles(text: string, isTaken: (title: string) => boolean): TitleList {
  const seen = new Set<string>();
  const lines = text
    .split(/\r\n|[\n\r]/)
    .map((line) => line.replace(/^\s*(?:[-*•–]|\d{1,3}[.)])\s+/, '').trim())
    .filter((line) => {
      const isNew = line !== '' && !seen.has(line.toLowerCase());
      seen.add(line.toLowerCase());
      return isNew;
    });
  const long = lines.find((line) => line.length > TITLE_MAX);
  const problem = long
    ? say.titleInListTooLong(long.slice(0, 40), long.length, TITLE_MAX)
    : lines.length > TITLES_MAX
      ? say.tooManyTitles(lines.length, TITLES_MAX)
      : null;
  return {
    titles: lines.filter((line) => !isTaken(line)),
    taken: lines.filter((line) => isTaken(line)),
    problem,
  };
}
