import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import type { Moment } from '../time/moment';
import { bookCounts, sortBook, type Book, type BookCounts } from './book';
import { canonicalJson } from './canonical-json';
import { findJsonFault } from './json-place';
import { BACKUP_CHARACTERS_MAX, TIME_MAX, TIME_MIN } from './limits';
import { checkBook } from './schema';
import { show } from './say-damage';

export const BACKUP_FORMAT = 'phrasewright-backup';
/** Raised by one with every change of the records; `READ_FROM` is the oldest that is still read, unchanged since. */
export const BACKUP_VERSION = 2;
/** Version 1 had no melodies, labels, fingers, weights and ties, which are all optional. */
const READ_FROM = 1;

/**
 * A backup file: JSON, UTF-8, one record a line. Drills and passes are nested in their sittings, as they are kept, so
 * that a sitting can be read, checked and merged by itself.
 */
interface Backup extends Book {
  format: typeof BACKUP_FORMAT;
  version: typeof BACKUP_VERSION;
  exportedAt: Moment;
  counts: BookCounts;
  /** SHA-256 in hex over the UTF-8 bytes of the canonical JSON (`canonicalJson`) of `{ settings, sittings, tunes }`. */
  checksum: string;
}

export type BackupReading = { ok: true; book: Book; exportedAt: Moment } | { ok: false; damage: string[] };

const FIELDS: readonly string[] = [
  'format',
  'version',
  'exportedAt',
  'counts',
  'settings',
  'sittings',
  'tunes',
  'checksum',
] satisfies (keyof Backup)[];

/** The text of a backup file. Equal books give equal files but for `exportedAt`. */
export function writeBackup(book: Book, now: Moment): string {
  const sorted = sortBook(book);
  const { at, offsetMin } = now;
  const lines = [
    `"format":"${BACKUP_FORMAT}"`,
    `"version":${BACKUP_VERSION}`,
    `"exportedAt":${canonicalJson({ at, offsetMin })}`,
    `"counts":${canonicalJson(bookCounts(sorted))}`,
    `"settings":${recordLines(sorted.settings)}`,
    `"sittings":${recordLines(sorted.sittings)}`,
    `"tunes":${recordLines(sorted.tunes)}`,
    `"checksum":"${bookChecksum(sorted)}"`,
  ];
  return `{\n${lines.join(',\n')}\n}\n`;
}

/**
 * The book of a backup file, whole or not at all. Never throws; the damage is named in plain sentences, at most some
 * twenty.
 */
export function readBackup(text: string): BackupReading {
  try {
    return readChecked(text);
  } catch (error) {
    if (error instanceof RangeError)
      return { ok: false, damage: ['the file is nested too deeply to be a backup'] };
    throw error;
  }
}

function readChecked(text: string): BackupReading {
  if (text.length > BACKUP_CHARACTERS_MAX) {
    return { ok: false, damage: [`the file is longer than ${BACKUP_CHARACTERS_MAX} characters`] };
  }
  const parsed = parse(text.replace(/^\uFEFF/, ''));
  if ('damage' in parsed) return { ok: false, damage: [parsed.damage] };
  const stranger = strangerFault(parsed.value);
  if (stranger !== null) return { ok: false, damage: [stranger] };
  const fields = parsed.value as Record<string, unknown>;
  const { settings, sittings, tunes, checksum, counts, exportedAt } = fields;
  const damage = Object.keys(fields)
    .filter((key) => !FIELDS.includes(key))
    .map((key) => `${show(key)} is not a field of a backup`);
  const checked = checkBook({ settings, sittings, tunes });
  if (!checked.ok) damage.push(...checked.damage);
  if (!isMoment(exportedAt)) damage.push(`exported at: ${show(exportedAt)} is not a moment`);
  if (checksum !== bookChecksum({ settings, sittings, tunes })) {
    damage.push('the checksum does not fit: the file was changed, or lost a part, after it was written');
  } else if (checked.ok && canonicalJson(counts) !== canonicalJson(bookCounts(checked.value))) {
    damage.push(`counts: ${show(counts)} is not what the file holds`);
  }
  if (damage.length > 0 || !checked.ok || !isMoment(exportedAt)) return { ok: false, damage };
  return { ok: true, book: checked.value, exportedAt };
}

function parse(text: string): { value: unknown } | { damage: string } {
  try {
    return { value: JSON.parse(text) };
  } catch {
    if (text.trim() === '') return { damage: 'the file is empty' };
    const fault = findJsonFault(text);
    const place = fault ? ` at line ${fault.line}, column ${fault.column}` : '';
    return { damage: `the file ${fault?.ended ? 'ends too soon' : 'is not JSON'}${place}` };
  }
}

function strangerFault(value: unknown): string | null {
  const { format, version } = (value ?? {}) as Record<string, unknown>;
  if (Array.isArray(value) || format !== BACKUP_FORMAT) {
    return 'the file is not a Phrasewright backup: its format is not "phrasewright-backup"';
  }
  const isNumbered = typeof version === 'number' && Number.isInteger(version);
  if (isNumbered && version >= READ_FROM && version <= BACKUP_VERSION) return null;
  if (isNumbered && version > BACKUP_VERSION) {
    return `the backup is of version ${version}, and this app reads version ${BACKUP_VERSION}: update the app first`;
  }
  return `version: ${show(version)} is not a version of the backup format`;
}

function isMoment(value: unknown): value is Moment {
  const { at, offsetMin } = (value ?? {}) as Record<string, unknown>;
  return (
    Number.isInteger(at) &&
    (at as number) >= TIME_MIN &&
    (at as number) <= TIME_MAX &&
    Number.isInteger(offsetMin)
  );
}

function bookChecksum(body: { settings: unknown; sittings: unknown; tunes: unknown }): string {
  const { settings, sittings, tunes } = body;
  return bytesToHex(sha256(utf8ToBytes(canonicalJson({ settings, sittings, tunes }))));
}

function recordLines(records: readonly unknown[]): string {
  return records.length === 0 ? '[]' : `[\n${records.map(canonicalJson).join(',\n')}\n]`;
}
