import type { Rational } from '../rhythm/rational';
import type { MelodyNote } from '../tune/melody';
import type { Finger, Technique, Weight } from '../tune/strike';
import type { MeasureLabel } from '../tune/tune';
import type { StringNumber, Tuning } from '../tune/tuning';
import type { ReadingWarning } from './reading';

/**
 * Music as a source writes it, between the readers and writers of formats and the tune: any meter, any voices,
 * repeats and endings not yet played out. ABC, MusicXML and MIDI are read into scores; `readingOfScore` makes
 * measures to learn of one, `scoreOfTune` goes the other way.
 */
export interface Score {
  /** The number that the source gives it (ABC's `X:`). */
  number: number | null;
  title: string | null;
  /** As a player would say it: `G`, `A modal`, `E minor`. */
  key: string | null;
  /** The first meter; `null` for free meter. */
  meter: ScoreMeter | null;
  /** Beats of the score's meter per minute, as `meterShape` counts beats. */
  tempo: number | null;
  /** Open strings without the capo, when the source says so. */
  tuning: Tuning | null;
  capo: number | null;
  /** At least one; the first is the melody unless the learner chooses another. */
  voices: readonly ScoreVoice[];
  /** Names of parts in the order in which they are played, when the source says so in one place (ABC's header `P:`). */
  order: readonly string[] | null;
  warnings: readonly ReadingWarning[];
}

/** As written: 12/8 is `{ count: 12, unit: 8 }`. */
export interface ScoreMeter {
  count: number;
  unit: number;
}

export interface ScoreVoice {
  /** As the source names it; for the learner's choice. */
  name: string;
  measures: readonly ScoreMeasure[];
}

/** What stands between two bar lines of one voice, in the order in which it is written. */
export interface ScoreMeasure {
  /** Where it begins in the source, both from 1; 1 and 1 where a source has no lines. */
  line: number;
  column: number;
  meter: ScoreMeter | null;
  /** In whole notes: what is written, which may be less or more than the meter asks for. */
  length: Rational;
  /** In order: see `compareNotes`. Grace notes are not here: they take no time of their own. */
  notes: readonly ScoreNote[];
  labels: readonly MeasureLabel[];
  /** A repeat begins before this measure. */
  opensRepeat: boolean;
  /** How many times in all the repeat that ends after this measure is played; 0: none ends here. */
  timesPlayed: number;
  /** The times through on which this measure is played: `[1, 3]`; `null`: every time. */
  ending: readonly number[] | null;
  /** A double or final bar line, or the end of a section, follows. */
  endsSection: boolean;
  /** A part of this name begins here (ABC's `P:`, a rehearsal mark). */
  part: string | null;
}

export interface ScoreNote extends MelodyNote {
  /** Where and how it is played, when the source says so. */
  fingering?: Fingering;
}

export interface Fingering {
  string: StringNumber;
  fret: number;
  technique: Technique;
  finger?: Finger;
  weight?: Weight;
}

/** What a reader found in one file or text. Warnings about one score stand in that score, the file's own here. */
export interface ScoresRead {
  scores: readonly Score[];
  warnings: readonly ReadingWarning[];
}

/** Measures of one voice as written: more than any tune has. A reader leaves out what follows, and says so. */
export const SCORE_MEASURES_MAX = 2000;

/** A measure between plain bar lines, in no part and no ending. */
export const NO_SIGNS = {
  opensRepeat: false,
  timesPlayed: 0,
  ending: null,
  endsSection: false,
  part: null,
} as const satisfies Partial<ScoreMeasure>;
