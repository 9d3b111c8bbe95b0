import { bookCounts, type Book, type BookCounts } from '$lib/core/book/book';
import { BACKUP_CHARACTERS_MAX } from '$lib/core/book/limits';
import type { Moment } from '$lib/core/time/moment';
import { app } from './app.svelte';
import { momentNow } from './clock';
import { canSend, download, send } from './hand-out-file';

const MINUTE_MS = 60_000;

/** A file that was read: the book in it, still outside ours, or the damage in sentences. */
export type BackupOffer =
  | { ok: true; name: string; book: Book; counts: BookCounts; exportedAt: number }
  | { ok: false; name: string; damage: readonly string[] };

/** `damage` is empty when the file reads back whole, as it should. */
export interface SavedBackup {
  name: string;
  damage: readonly string[];
}

/** `phrasewright-2026-11-25.json`, by the local date. */
export function backupName({ at, offsetMin }: Moment): string {
  const date = new Date(at + offsetMin * MINUTE_MS).toISOString().slice(0, 10);
  return `phrasewright-${date}.json`;
}

/** The whole book as a download. Resolves once the browser was handed the file, which has been read back before. */
export async function saveBackup(): Promise<SavedBackup> {
  const { file, damage } = await makeBackup();
  download(file);
  return { name: file.name, damage };
}

/** True where the device has a share sheet that says that it takes files. */
export function canSendBackup(): boolean {
  return canSend(new File(['{}'], backupName({ at: 0, offsetMin: 0 }), { type: 'application/json' }));
}

/** The whole book through the share sheet, as `send` does. */
export async function sendBackup(): ReturnType<typeof send> {
  const { file } = await makeBackup();
  return send(file);
}

/** Reads and checks a file without touching the book. Never rejects for what is in the file. */
export async function readBackupFile(file: File): Promise<BackupOffer> {
  const { name } = file;
  if (file.size > BACKUP_CHARACTERS_MAX) {
    const most = Math.floor(BACKUP_CHARACTERS_MAX / 1_000_000);
    return { ok: false, name, damage: [`the file is larger than ${most} MB, so it was not opened`] };
  }
  let text: string;
  try {
    text = await file.text();
  } catch {
    return { ok: false, name, damage: ['the device did not hand the file out: choose it again'] };
  }
  const { readBackup } = await import('$lib/core/book/backup');
  const reading = readBackup(text);
  if (!reading.ok) return { ok: false, name, damage: reading.damage };
  const { book, exportedAt } = reading;
  return { ok: true, name, book, counts: bookCounts(book), exportedAt: exportedAt.at };
}

async function makeBackup(): Promise<{ file: File; damage: readonly string[] }> {
  const [{ writeBackup, readBackup }, book] = await Promise.all([
    import('$lib/core/book/backup'),
    app.readBook(),
  ]);
  const now = momentNow();
  const text = writeBackup(book, now);
  const reading = readBackup(text);
  return {
    file: new File([text], backupName(now), { type: 'application/json' }),
    damage: reading.ok ? [] : reading.damage,
  };
}
