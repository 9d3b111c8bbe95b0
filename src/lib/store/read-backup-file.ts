import { readBackup } from '$lib/core/book/backup';
import { BackupReader, bookPieces } from '$lib/core/book/backup-reader';
import { bookCounts, type Book, type BookCounts } from '$lib/core/book/book';
import { WHOLE_CHARACTERS_MAX } from '$lib/core/book/limits';
import { say } from '$lib/texts/backup-file';
import { textsAtOnce, textsOf } from './pack';

/** What a file holds. `checksum`: `null` for one that could only be read whole. */
export type FileVerdict =
  | { ok: true; exportedAt: number; counts: BookCounts; checksum: string | null }
  | { ok: false; damage: string[] };

type OnBytes = (read: number) => void;

/**
 * Reads and checks a whole file, every record of it, and keeps nothing. Rejects only for what `onBytes` throws. `isTrusted`:
 * this app has just written it, and its checksum says enough.
 */
export async function checkFile(file: Blob, onBytes: OnBytes, isTrusted = false): Promise<FileVerdict> {
  const reader = new BackupReader({ isTrusted });
  const trouble = await eachText(file, onBytes, (text) => reader.push(text));
  if (trouble !== null) return { ok: false, damage: [trouble] };
  const verdict = reader.finish();
  if (verdict.ok) return { ...verdict, exportedAt: verdict.exportedAt.at };
  const refused = { ok: false as const, damage: verdict.damage };
  if (!verdict.isStrange) return refused;
  const text = await wholeText(file, onBytes);
  if (text === null) return refused;
  const reading = readBackup(text);
  if (!reading.ok) return reading;
  const { book, exportedAt } = reading;
  return { ok: true, exportedAt: exportedAt.at, counts: bookCounts(book), checksum: null };
}

/**
 * The books of a file that `checkFile` found sound, without ever waiting; throws when it is another one by now. For a
 * file of another layout than ours, the book that it is.
 */
export async function piecesOf(
  file: Blob,
  checksum: string | null,
  onBytes: OnBytes,
): Promise<() => Iterable<Book>> {
  if (checksum !== null) return () => bookPieces(textsAtOnce(file, onBytes), checksum);
  const text = await wholeText(file, onBytes);
  const reading = text === null ? null : readBackup(text);
  if (!reading?.ok) throw new Error(say.changedSince);
  return () => [reading.book];
}

/** `null` for a text that is too long to be held. */
async function wholeText(file: Blob, onBytes: OnBytes): Promise<string | null> {
  const texts: string[] = [];
  let length = 0;
  await eachText(file, onBytes, (text) => {
    texts.push(text);
    length += text.length;
    return length <= WHOLE_CHARACTERS_MAX;
  });
  return length > WHOLE_CHARACTERS_MAX ? null : texts.join('');
}

/** Hands on the texts of a file until `take` says false; a sentence when the file cannot be read to its end. */
async function eachText(
  file: Blob,
  onBytes: OnBytes,
  take: (text: string) => boolean,
): Promise<string | null> {
  // what a caller throws to make an end is not the file's fault
  let stop: { reason: unknown } | null = null;
  const count: OnBytes = (read) => {
    try {
      onBytes(read);
    } catch (reason) {
      stop = { reason };
      throw reason;
    }
  };
  try {
    for await (const text of textsOf(file, count)) if (!take(text)) break;
    return null;
  } catch (error) {
    if (stop) throw (stop as { reason: unknown }).reason;
    if (error instanceof TypeError) return say.packedDamage;
    return say.notHandedOut;
  }
}
