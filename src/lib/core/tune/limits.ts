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
