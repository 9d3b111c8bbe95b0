import { DAY_MS } from '../time/moment';
import type { Origin } from '../tune/tune';
import type { Book } from './book';

export function isDemo(record: { origin: Origin }): boolean {
  return record.origin === 'demo';
}

/** The learner's own records. Passes that the learner played on a demo tune stay in their sittings. */
export function withoutDemo(book: Book): Book {
  return {
    ...book,
    tunes: book.tunes.filter((tune) => !isDemo(tune)),
    sittings: book.sittings.filter((sitting) => !isDemo(sitting)),
  };
}

/** The book with every time moved by whole days, so that a made-up history can end yesterday. Ids stay. */
export function shiftBook(book: Book, days: number): Book {
  const by = Math.trunc(days) * DAY_MS;
  const edited = <T extends { editedAt: number }>(record: T): T => ({
    ...record,
    editedAt: record.editedAt + by,
  });
  const moved = <T extends { at: number }>(record: T): T => ({ ...record, at: record.at + by });
  return {
    settings: book.settings.map(edited),
    tunes: book.tunes.map((tune) => ({
      ...edited(tune),
      added: moved(tune.added),
      deletedAt: tune.deletedAt === null ? null : tune.deletedAt + by,
      figures: tune.figures.map(edited),
      parts: tune.parts.map((part) => ({ ...part, measures: part.measures.map(edited) })),
      ...(tune.shelf && { shelf: tune.shelf.map(edited) }),
    })),
    sittings: book.sittings.map((sitting) => ({
      ...moved(sitting),
      endedAt: sitting.endedAt + by,
      drills: sitting.drills.map(moved),
      log: sitting.log.map(moved),
    })),
  };
}
