import type { Moment } from '../time/moment';
import type { Meter } from '../rhythm/meter';
import type { Rational } from '../rhythm/rational';
import type { MelodyNote } from './melody';
import type { Setup } from './tuning';
import type { Strike } from './strike';

/** Ids are UUIDv7 in their 36-character form. */
export type Id = string;

/** A distinct measure's content. Measures that name the same figure are learned once. */
export interface Figure {
  id: Id;
  /** Length in beats of the tune's meter, a multiple of one half: usually the meter's own, another in a crooked measure. */
  beats: number;
  /** Its length when it was written, where its tab needs `beats` in the meter that the tune has now (see `fitFigures`). */
  writtenBeats?: number;
  /** In order (see `compareStrikes`). `null`: no tab yet; an empty list is a silent measure. */
  strikes: readonly Strike[] | null;
  /** What the measure is to sound, in order (see `compareNotes`), when a source gave pitches and no fingering. */
  melody?: readonly MelodyNote[];
  editedAt: number;
}

/** What is written over or under a place of a measure: it belongs to the place, so that shared measures may differ in it. */
export interface MeasureLabel {
  /** From the start of the measure, in whole notes. */
  onset: Rational;
  /** A chord to accompany with, or a word: a syllable of the lyrics, a cue. */
  kind: 'chord' | 'word';
  text: string;
}

/** A place in a part. */
export interface Measure {
  id: Id;
  figureId: Id;
  /** In the order of their onsets. */
  labels?: readonly MeasureLabel[];
  editedAt: number;
}

export interface Part {
  /** One capital letter, unique in the tune. */
  name: string;
  measures: readonly Measure[];
}

/** The notes before the first full measure of the tune; sounded in the last beats of the count-in. */
export interface Pickup {
  /** A multiple of one half, more than 0, less than a measure. */
  beats: number;
  strikes: readonly Strike[] | null;
  melody?: readonly MelodyNote[];
}

/**
 * One level of the arrangement. The first layer is the measures as they stand in the parts; a later one names
 * only the measures that it changes.
 */
export interface Layer {
  id: Id;
  name: string;
  /** Measure id -> figure id. Empty in the first layer. */
  changes: Readonly<Record<Id, Id>>;
  /** When a measure was last changed or changed back in this layer; one that is not named here: at the start. */
  changedAt?: Readonly<Record<Id, number>>;
  /** Of its name, and of its being added, taken off or put back: merging takes the later. Left out: at the start. */
  editedAt?: number;
}

/** Where a record comes from: `demo` records go with one touch, the learner's own stay. */
export type Origin = 'own' | 'demo';

export interface Tune extends Setup {
  id: Id;
  title: string;
  /** As a player would say it (`G`, `A modal`); empty when not known. */
  key: string;
  meter: Meter;
  /** Beats of the meter per minute. */
  goalTempo: number;
  /** Part letters in the order they are played: `AABB`. */
  form: string;
  parts: readonly Part[];
  /**
   * Measures that are on no part: taken off the board by an edit, or added on another device whose layout a merge did
   * not choose. Kept so that merging forgets nothing.
   */
  shelf?: readonly Measure[];
  figures: readonly Figure[];
  /** At least one; the first is the plain setting. */
  layers: readonly Layer[];
  /** Layers that were taken off, the newest last: kept so that merging forgets nothing and each can be put back. */
  layerShelf?: readonly Layer[];
  pickup: Pickup | null;
  origin: Origin;
  added: Moment;
  /** Of the fields above other than figures, measures and layers, which carry their own: merging takes the later edit of each. */
  editedAt: number;
  /** Put away: keeps its history, is not planned. */
  archived: boolean;
  /** Deleted tunes stay as a mark, so that a merge cannot bring them back and the learner can. */
  deletedAt: number | null;
}
