import { say } from '../../texts/backup-file';
import type { Moment } from '../time/moment';
import { BackupCheck, type BackupVerdict } from './backup-check';
import { BackupWriter } from './backup-writer';
import { sortBook, type Book } from './book';
import { RECORD_KINDS } from './book-checksum';
import { nestsTooDeep, sayJsonFault } from './json-place';
import { BACKUP_CHARACTERS_MAX } from './limits';

export type BackupReading = { ok: true; book: Book; exportedAt: Moment } | { ok: false; damage: string[] };

/** The text of a backup file. Equal books give equal files but for `exportedAt`. */
export function writeBackup(book: Book, now: Moment): string {
  const sorted = sortBook(book);
  const writer = new BackupWriter(now);
  const lists = RECORD_KINDS.map((kind) => writer.add(kind, sorted[kind]));
  return [...lists, writer.finish()].join('');
}

/**
 * The book of a backup file in any layout of JSON, whole or not at all. Never throws; the damage is named in plain
 * sentences, at most some twenty. For a file of any size see `BackupReader`.
 */
export function readBackup(text: string): BackupReading {
  try {
    return readChecked(text);
  } catch (error) {
    if (error instanceof RangeError) return { ok: false, damage: [say.tooDeep] };
    throw error;
  }
}

function readChecked(text: string): BackupReading {
  if (text.length > BACKUP_CHARACTERS_MAX) {
    return { ok: false, damage: [say.tooLong(BACKUP_CHARACTERS_MAX)] };
  }
  if (nestsTooDeep(text)) return { ok: false, damage: [say.tooDeep] };
  const parsed = parse(text.replace(/^\uFEFF/, ''));
  if ('damage' in parsed) return { ok: false, damage: [parsed.damage] };
  const verdict = checkWhole(parsed.value);
  if (!verdict.ok) return verdict;
  const { settings, sittings, tunes } = parsed.value as Book;
  return { ok: true, book: { settings, sittings, tunes }, exportedAt: verdict.exportedAt };
}

function checkWhole(value: unknown): BackupVerdict {
  const check = new BackupCheck();
  const fields = (Array.isArray(value) ? {} : (value ?? {})) as Record<string, unknown>;
  const isList = (key: string): boolean => RECORD_KINDS.some((kind) => kind === key);
  for (const [key, field] of Object.entries(fields)) if (!isList(key)) check.field(key, field);
  if (check.strangerFault(true) !== null) return check.verdict();
  for (const kind of RECORD_KINDS) {
    const records = fields[kind];
    check.list(kind, records ?? null);
    if (Array.isArray(records)) for (const record of records as unknown[]) check.record(kind, record);
  }
  return check.verdict();
}

function parse(text: string): { value: unknown } | { damage: string } {
  try {
    return { value: JSON.parse(text) };
  } catch {
    if (text.trim() === '') return { damage: say.empty };
    return { damage: sayJsonFault(text) };
  }
}
