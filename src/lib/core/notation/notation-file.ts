import type { Meter } from '../rhythm/meter';
import type { Reading, ReadingWarning } from './reading';
import type { Score } from './score';

export type NotationFormat = 'abc' | 'musicxml' | 'mxl' | 'midi' | 'tab';

/** The largest source that is opened, in bytes. */
export const NOTATION_BYTES_MAX = 20_000_000;

/** One tune of a source, before it is read in full. */
export interface NotationEntry {
  /** `null` where the source gives none. */
  title: string | null;
  number: number | null;
  /** The line on which it begins, from 1; 1 where a source has no lines. */
  line: number;
}

export interface EntryOptions {
  /** For typed tab only, and there for a text that does not say it. */
  meter: Meter;
  /** The learner has chosen the meter: it counts whatever the text says. */
  isMeterChosen?: boolean;
  /** Which of the voices holds the melody, from 0. */
  voice: number;
}

export interface EntryRead {
  reading: Reading;
  /** Names of the voices that could be the melody; one or none where there is no choice. */
  voices: readonly string[];
}

export interface EntryWithScore extends EntryRead {
  /** What it was read from; `null` for typed tab, which is read into measures at once. */
  score: Score | null;
}

/** A source that was recognised. Its tunes are read one at a time, when asked for. */
export interface NotationFile {
  format: NotationFormat;
  /** Named when the text did not say how its letters are written and it had to be guessed. */
  guessedEncoding: string | null;
  entries: readonly NotationEntry[];
  /** About the source as a whole; those of one tune are in its reading. */
  warnings: readonly ReadingWarning[];
  /** Reads the tune at a place of `entries` in full. Never throws. */
  read: (index: number, options: EntryOptions) => EntryWithScore;
}
