export * from '../tune/limits';

/**
 * 1970-01-01 and 2100-01-01, UTC, in milliseconds. A clock that was never set says 1970, and a pass marked under it is
 * kept all the same; a time outside is a broken record.
 */
export const TIME_MIN = 0;
export const TIME_MAX = 4_102_444_800_000;

/** The UTC offsets in use on Earth, in minutes: UTC-12 to UTC+14 (IANA time zone database; value from memory). */
export const OFFSET_MIN = -12 * 60;
export const OFFSET_MAX = 14 * 60;

export const NAME_MAX = 60;
export const NOTE_MAX = 10_000;

export const PITCH_MIN = 24;
export const PITCH_MAX = 96;

/** Of a melody: what MIDI can name. */
export const MELODY_PITCH_MIN = 0;
export const MELODY_PITCH_MAX = 127;

/** Far more than one device makes, for a merge keeps the layers of all. */
export const LAYERS_MAX = 1000;
export const FIGURES_MAX = 20_000;
/** The longest measure of the slowest meter. */
export const WHOLE_NOTES_MAX = 16;

export const DRILLS_MAX = 10_000;
export const LOG_MAX = 100_000;
/** A day. */
export const MINUTES_MAX = 1440;

/** Records that one backup may hold of each kind, and the characters that it may be long. */
export const RECORDS_MAX = 1_000_000;
export const BACKUP_CHARACTERS_MAX = 500_000_000;
/** One line of a backup: the longest sitting that `DRILLS_MAX` and `LOG_MAX` allow, with room to spare. */
export const LINE_CHARACTERS_MAX = 32_000_000;
/** A backup that is not laid out one record a line is read whole, which may take 25 bytes a character, up to this length. */
export const WHOLE_CHARACTERS_MAX = 10_000_000;
