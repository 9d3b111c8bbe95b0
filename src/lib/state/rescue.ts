import { writeBackup } from '$lib/core/book/backup';
import { emptyBook, type Book } from '$lib/core/book/book';
import type { LogEntry } from '$lib/core/practice/records';
import { practiceDayDate, practiceDay } from '$lib/core/time/practice-day';
import type { Tune } from '$lib/core/tune/tune';
import { sealOpen, type OpenSitting } from '$lib/store/open-sitting';
import { readSecondCopy } from '$lib/store/rescue';
import { momentNow } from './clock';

/** The second copy of a book whose database cannot be opened, as a backup file; `null` when there is nothing in it. */
export async function secondCopyFile(): Promise<File | null> {
  try {
    const book = await readSecondCopy();
    return book && fileOf(book);
  } catch {
    // the files are refused as the database is
    return null;
  }
}

/** The sitting as the page remembers it, with marks that are not on disk, as a backup file: merged in later, it adds what the book lacks. */
export function waitingFile(tunes: readonly Tune[], open: OpenSitting, waiting: readonly LogEntry[]): File {
  const known = new Set(open.log.map(({ id }) => id));
  const log = [...open.log, ...waiting.filter(({ id }) => !known.has(id))];
  return fileOf({ ...emptyBook(), tunes: [...tunes], sittings: [sealOpen({ ...open, log })] });
}

function fileOf(book: Book): File {
  const now = momentNow();
  const name = `phrasewright-rescued-${practiceDayDate(practiceDay(now, 0))}.json`;
  return new File([writeBackup(book, now)], name, { type: 'application/json' });
}
