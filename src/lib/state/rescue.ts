import { writeBackup } from '$lib/core/book/backup';
import { byId, type Book } from '$lib/core/book/book';
import type { SettingRow } from '$lib/core/book/settings';
import type { LogEntry } from '$lib/core/practice/records';
import { practiceDayDate, practiceDay } from '$lib/core/time/practice-day';
import type { Tune } from '$lib/core/tune/tune';
import { hasPass, sealOpen, type OpenSitting } from '$lib/store/open-sitting';
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

/** Sittings as the page remembers them, with marks and settings that are not on disk, as a backup file: merged in later, it adds what the book lacks. */
export function waitingFile(
  tunes: readonly Tune[],
  sittings: readonly OpenSitting[],
  waiting: readonly LogEntry[],
  settings: readonly SettingRow[],
): File {
  const withWaiting = (open: OpenSitting): OpenSitting => {
    const known = new Set(open.log.map(({ id }) => id));
    const drillIds = new Set(open.drills.map(({ id }) => id));
    const added = waiting.filter(({ id, drillId }) => drillIds.has(drillId) && !known.has(id));
    return { ...open, log: [...open.log, ...added] };
  };
  const sealed = sittings.map((open) => sealOpen(withWaiting(open))).filter(({ log }) => hasPass(log));
  return fileOf({ tunes: [...tunes], sittings: sealed.sort(byId), settings: [...settings] });
}

function fileOf(book: Book): File {
  const now = momentNow();
  const name = `phrasewright-rescued-${practiceDayDate(practiceDay(now, 0))}.json`;
  return new File([writeBackup(book, now)], name, { type: 'application/json' });
}
