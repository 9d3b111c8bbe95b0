import { readFileSync } from 'node:fs';
import { readBackup } from '../lib/core/book/backup';
import type { Book } from '../lib/core/book/book';
import { PLAN_MINUTES_MAX, PLAN_MINUTES_MIN } from '../lib/core/plan/plan';
import type { Moment } from '../lib/core/time/moment';
import { COMMON_TUNINGS, type Tuning } from '../lib/core/tune/tuning';
import { Trouble } from './trouble';

export function readText(file: string): string {
  try {
    return readFileSync(file, 'utf8');
  } catch (error) {
    throw cannotRead(file, error);
  }
}

export function cannotRead(file: string, error: unknown): Trouble {
  const code = error instanceof Error && 'code' in error ? String(error.code) : 'unreadable';
  const why = code === 'ENOENT' ? 'there is no such file' : code;
  return new Trouble(`Cannot read ${file}: ${why}.`);
}

export function readBook(file: string | undefined): Book {
  if (file === undefined) throw new Trouble('Name a book file with --book FILE.');
  const reading = readBackup(readText(file));
  if (reading.ok) return reading.book;
  const [first = 'it is damaged', ...more] = reading.damage;
  const rest = more.length > 0 ? ` (and ${more.length} more)` : '';
  throw new Trouble(`${file} is not a book that can be read: ${first.replace(/\.$/, '')}${rest}.`);
}

const ISO = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2}(\.\d{1,3})?)?(Z|([+-])(\d{2}):?(\d{2}))$/;

/** An ISO 8601 date and time with its UTC offset: the offset becomes the local clock; `Z` is UTC itself. */
export function readMoment(text: string | undefined): Moment {
  const found = ISO.exec(text ?? '');
  const at = found ? Date.parse(normalOffset(found)) : NaN;
  if (!found || Number.isNaN(at) || !isInCalendar(found[0])) {
    throw new Trouble(
      `Give the moment as --now 2026-11-25T18:00:00-05:00, with its offset or Z: saw ${text ?? 'nothing'}.`,
    );
  }
  const [, , , , sign, hours = '0', minutes = '0'] = found;
  const offset = Number(hours) * 60 + Number(minutes);
  if (offset > 14 * 60) throw new Trouble(`No clock on Earth is ${hours}:${minutes} from UTC: saw ${text}.`);
  return { at, offsetMin: sign === '-' && offset > 0 ? -offset : offset };
}

/** `Date.parse` takes 30 February for 2 March. */
function isInCalendar(text: string): boolean {
  const date = text.slice(0, 10);
  return new Date(`${date}T00:00:00Z`).toISOString().startsWith(date);
}

function normalOffset([text, , , zone = 'Z', sign, hours, minutes]: RegExpExecArray): string {
  return sign ? `${text.slice(0, -zone.length)}${sign}${hours}:${minutes}` : text;
}

export function readMinutes(text: string | undefined): number {
  const minutes = text === undefined || text.trim() === '' ? NaN : Number(text);
  if (!(minutes >= PLAN_MINUTES_MIN && minutes <= PLAN_MINUTES_MAX)) {
    throw new Trouble(
      `Give the minutes as --minutes ${PLAN_MINUTES_MIN} to ${PLAN_MINUTES_MAX}: saw ${text ?? 'nothing'}.`,
    );
  }
  return minutes;
}

const PITCH_CLASSES: Record<string, number> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };
/** Where the open strings of the instrument lie, fifth to first: the nearest octave is meant. */
const USUAL: Tuning = [67, 50, 55, 59, 62];

/** A tuning by its name (`gDGBD`, any five pitches) or by what players call it (`double C`). */
export function readTuning(text: string | undefined): Tuning | null {
  if (text === undefined) return null;
  const known = COMMON_TUNINGS.find(
    ({ name, called }) => name === text || called.toLowerCase() === text.toLowerCase(),
  );
  if (known) return known.tuning;
  const pitches = /^(?:[A-Ga-g][#b]?){5}$/.test(text) ? text.match(/[A-Ga-g][#b]?/g) : null;
  if (!pitches) {
    const names = COMMON_TUNINGS.map(({ name }) => name).join(', ');
    throw new Trouble(
      `There is no tuning ${text}: give five pitches from the fifth string, such as ${names}.`,
    );
  }
  const [fifth, fourth, third, second, first] = pitches.map((pitch, index) =>
    nearest(pitch, USUAL[index] ?? 60),
  );
  return [fifth ?? 0, fourth ?? 0, third ?? 0, second ?? 0, first ?? 0];
}

function nearest(pitch: string, usual: number): number {
  const accidental = pitch[1] === '#' ? 1 : pitch[1] === 'b' ? -1 : 0;
  const wanted = (PITCH_CLASSES[pitch.charAt(0).toUpperCase()] ?? 0) + accidental;
  const up = (((wanted - usual) % 12) + 12) % 12;
  return usual + (up > 6 ? up - 12 : up);
}
