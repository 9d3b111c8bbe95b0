import { byId, type Book } from '$lib/core/book/book';
import { BOOK_NAME } from './book-name';
import { hasPass, sealOpen, sittingOf } from './open-sitting';
import { SecondCopy } from './second-copy';

/** What the second copy holds, for a database that cannot be opened: `null` for nothing, or where there is no copy. Only reads. */
export async function readSecondCopy(name = BOOK_NAME): Promise<Book | null> {
  const copy = await SecondCopy.open(name);
  if (!copy || !(await copy.readMarker())) return null;
  const book = await copy.readBook();
  const known = new Set(book.sittings.map(({ id }) => id));
  const open = (await copy.readJournals()).filter(
    ({ sittingId, log }) => !known.has(sittingId) && hasPass(log),
  );
  const sittings = open.map(({ sittingId, sitting, drills, log }) =>
    sealOpen({ sitting: sitting ?? sittingOf(sittingId, log), drills, log }),
  );
  return { ...book, sittings: [...book.sittings, ...sittings].sort(byId) };
}
