export const TITLE_MAX = 200;
export const KEY_MAX = 40;
/** Of one part. */
export const MEASURES_MAX = 400;
export const PARTS_MAX = 26;
/** Parts played, repeats written out. */
export const FORM_MAX = 64;
/** Frets, of the capo and of the short string's spike. */
export const CAPO_MAX = 12;
/** Of one measure. */
export const BEATS_MIN = 0.5;
export const BEATS_MAX = 32;
/** Of a measure that was written in half-note beats and has to fit in quarter-note ones. */
export const FITTED_BEATS_MAX = 2 * BEATS_MAX;
/** Strikes or melody notes of one measure. */
export const STRIKES_MAX = 1000;
/** Chords and words of one measure, and the letters of one. */
export const LABELS_MAX = 200;
export const LABEL_MAX = 60;
/** The last fret of a five-string neck (common practice). */
export const FRET_MAX = 22;
/** Fine enough for 64th notes inside triplets and quintuplets; bounds the numbers that exact arithmetic meets. */
export const DENOMINATOR_MAX = 100_000;
