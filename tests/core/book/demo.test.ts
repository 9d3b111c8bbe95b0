import { expect, test } from 'vitest';
import type { Book } from '../../../src/lib/core/book/book';
import { shiftBook, withoutDemo } from '../../../src/lib/core/book/demo';
import { checkBook } from '../../../src/lib/core/book/schema';
import { practiceDay } from '../../../src/lib/core/time/practice-day';
import { EVENING, idOf, measure, SMALL_BOOK, WINTER_TUNE } from './made-up-books';

const book: Book = {
  ...SMALL_BOOK,
  tunes: [{ ...WINTER_TUNE, deletedAt: WINTER_TUNE.editedAt, shelf: [measure(14, 21)] }],
};

test('a shifted book is the same book, whole days later', () => {
  const shifted = shiftBook(book, 9);
  expect(checkBook(shifted)).toMatchObject({ ok: true });
  expect(shiftBook(shifted, -9)).toEqual(book);
  const days = (of: Book): number[] =>
    of.sittings.flatMap(({ log }) => log.map((entry) => practiceDay(entry)));
  expect(days(shifted)).toEqual(days(book).map((day) => day + 9));
  const times = (of: Book): number[] => (JSON.stringify(of).match(/1\d{12}/g) ?? []).map(Number).sort();
  const early = times(book);
  // every time of 13 digits in the book, wherever it stands, has moved
  expect(times(shifted)).toEqual(early.map((time) => time + 9 * 86_400_000));
  expect(early.length).toBeGreaterThan(12);
});

test('without the demo the own records stay, and passes played on a demo tune with them', () => {
  const demoTune = { ...WINTER_TUNE, origin: 'demo' as const };
  const demoSitting = { ...EVENING, id: idOf(900), origin: 'demo' as const };
  const own = withoutDemo({ ...SMALL_BOOK, tunes: [demoTune], sittings: [EVENING, demoSitting] });
  expect(own).toEqual({ ...SMALL_BOOK, tunes: [] });
});
