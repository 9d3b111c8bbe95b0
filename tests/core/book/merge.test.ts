import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { emptyBook, sortBook, type Book } from '../../../src/lib/core/book/book';
import { mergeBooks, mergeSittings, mergeTunes } from '../../../src/lib/core/book/merge';
import { checkBook, checkTune } from '../../../src/lib/core/book/schema';
import type { Layer, Tune } from '../../../src/lib/core/tune/tune';
import {
  EVENING,
  figure,
  idOf,
  measure,
  pass,
  SMALL_BOOK,
  someBook,
  START,
  WINTER_TUNE,
} from './made-up-books';

const passIds = (...books: Book[]): Set<string> =>
  new Set(books.flatMap(({ sittings }) => sittings.flatMap(({ log }) => log.map(({ id }) => id))));
const figureIds = (...books: Book[]): Set<string> =>
  new Set(books.flatMap(({ tunes }) => tunes.flatMap(({ figures }) => figures.map(({ id }) => id))));

describe('two books merge', () => {
  test('in either order', () => {
    fc.assert(
      fc.property(someBook, someBook, (a, b) => {
        expect(mergeBooks(a, b)).toEqual(mergeBooks(b, a));
      }),
    );
  });

  test('in any grouping', () => {
    fc.assert(
      fc.property(someBook, someBook, someBook, (a, b, c) => {
        expect(mergeBooks(mergeBooks(a, b), c)).toEqual(mergeBooks(a, mergeBooks(b, c)));
      }),
      { numRuns: 300 },
    );
  });

  test('the same book twice is that book, and so is a book and nothing', () => {
    fc.assert(
      fc.property(someBook, (a) => {
        expect(mergeBooks(a, a)).toEqual(sortBook(a));
        expect(mergeBooks(a, structuredClone(a))).toEqual(sortBook(a));
        expect(mergeBooks(a, emptyBook())).toEqual(sortBook(a));
      }),
    );
  });

  test('and two devices that swap books end with the same one, to the byte', () => {
    fc.assert(
      fc.property(someBook, someBook, (phone, tablet) => {
        const onPhone = mergeBooks(phone, tablet);
        const onTablet = mergeBooks(tablet, onPhone);
        expect(JSON.stringify(onTablet)).toBe(JSON.stringify(mergeBooks(onPhone, onTablet)));
      }),
    );
  });

  test('and no pass, figure or setting is dropped', () => {
    fc.assert(
      fc.property(someBook, someBook, (a, b) => {
        const merged = mergeBooks(a, b);
        expect(passIds(merged)).toEqual(passIds(a, b));
        expect(figureIds(merged)).toEqual(figureIds(a, b));
        const keys = [...a.settings, ...b.settings].map(({ key }) => key);
        expect(merged.settings.map(({ key }) => key)).toEqual([...new Set(keys)].sort());
      }),
    );
  });

  test('and what the schema accepts before, it accepts after', () => {
    fc.assert(
      fc.property(someBook, someBook, (a, b) => {
        expect(checkBook(a)).toMatchObject({ ok: true });
        expect(checkBook(mergeBooks(a, b))).toMatchObject({ ok: true });
      }),
    );
  });
});

describe('two copies of a tune', () => {
  const later = START + 1000;

  test('take the title of one edit and the measure of another', () => {
    const renamed = { ...WINTER_TUNE, title: 'The Miller’s Supper', editedAt: later };
    const rewritten = {
      ...WINTER_TUNE,
      figures: WINTER_TUNE.figures.map((kept) =>
        kept.id === idOf(21) ? { ...figure(21, later), strikes: [] } : kept,
      ),
    };
    const merged = mergeTunes(renamed, rewritten);
    expect(merged.title).toBe('The Miller’s Supper');
    expect(merged.figures.find(({ id }) => id === idOf(21))?.strikes).toEqual([]);
  });

  test('remember a deletion against an earlier edit, and yield to a later one', () => {
    const deleted = { ...WINTER_TUNE, deletedAt: later };
    expect(mergeTunes(deleted, { ...WINTER_TUNE, title: 'x', editedAt: later - 1 }).deletedAt).toBe(later);
    expect(mergeTunes(deleted, { ...WINTER_TUNE, title: 'x', editedAt: later + 1 }).deletedAt).toBeNull();
  });

  test('keep on the shelf what the chosen layout lacks, with its own latest figure', () => {
    const shorter = {
      ...WINTER_TUNE,
      editedAt: later,
      parts: WINTER_TUNE.parts.map((part) => ({ ...part, measures: part.measures.slice(0, 1) })),
    };
    const reassigned = {
      ...WINTER_TUNE,
      parts: [{ name: 'A', measures: [measure(10, 20), measure(11, 22, later)] }, WINTER_TUNE.parts[1]!],
    };
    const merged = mergeTunes(shorter, reassigned);
    expect(merged.parts.map(({ measures }) => measures.length)).toEqual([1, 1]);
    expect(merged.shelf).toEqual([measure(11, 22, later), measure(13, 21)]);
    expect(checkTune(merged)).toMatchObject({ ok: true });
  });

  test('make room for tab that was written in another meter, for as long as that meter stands', () => {
    const untabbed = [20, 21, 22].map((number) => figure(number, START - 1));
    const inFour = { ...WINTER_TUNE, meter: '4/4' as const, figures: untabbed, editedAt: later };
    const changed = mergeTunes(WINTER_TUNE, inFour);
    expect(checkTune(changed)).toMatchObject({ ok: true });
    // the drone at 7/8 of a whole note needs four quarter-note beats
    expect(changed.figures[0]).toMatchObject({ beats: 4, writtenBeats: 2 });
    const back = mergeTunes(changed, { ...WINTER_TUNE, editedAt: later + 1 });
    expect(back).toEqual({ ...WINTER_TUNE, editedAt: later + 1 });
  });
});

describe('two copies of a sitting', () => {
  test('unite their logs; the note is of the copy that ended later', () => {
    const phone = { ...EVENING, log: EVENING.log.slice(0, 2), note: 'early' };
    const tablet = { ...EVENING, log: [EVENING.log[0]!, pass(120, 101)], endedAt: EVENING.endedAt + 1 };
    const merged = mergeSittings(phone, tablet);
    expect(merged.log.map(({ id }) => id)).toEqual([idOf(110), idOf(111), idOf(120)]);
    expect(merged.note).toBe(EVENING.note);
  });

  test('keep the order of writing when they agree on it, though a clock was set back', () => {
    const log = [pass(130, 101), pass(120, 101)];
    expect(mergeSittings({ ...EVENING, log }, { ...EVENING, log, note: '' }).log).toEqual(log);
  });
});

test('the later of two settings stays', () => {
  const mine: Book = { ...emptyBook(), settings: [{ key: 'minutes', value: 45, editedAt: START + 1 }] };
  expect(mergeBooks(SMALL_BOOK, mine).settings.find(({ key }) => key === 'minutes')?.value).toBe(45);
});

describe('layers of one tune on two devices', () => {
  const [plain, drop] = [WINTER_TUNE.layers[0]!, WINTER_TUNE.layers[1]!];
  const at = (minutes: number): number => START + minutes * 60_000;
  const withDrop = (change: Partial<Layer>): Tune => ({
    ...WINTER_TUNE,
    layers: [plain, { ...drop, ...change }],
  });
  const measures = [idOf(10), idOf(11)] as const;

  test('keep what each changed, and what was changed back later stays back', () => {
    const phone = withDrop({
      changes: { [measures[1]]: idOf(22) },
      changedAt: { [measures[0]]: at(5), [measures[1]]: at(1) },
    });
    const tablet = withDrop({ name: 'thumbs', editedAt: at(3) });
    const merged = mergeTunes(phone, tablet);
    expect(merged.layers[1]?.changes).toEqual({ [measures[1]]: idOf(22) });
    expect(merged.layers[1]?.name).toBe('thumbs');
    expect(mergeTunes(tablet, phone)).toEqual(merged);
  });

  test('stay off once taken off, with what was changed in them meanwhile, until put back later', () => {
    const off: Tune = { ...WINTER_TUNE, layers: [plain], layerShelf: [{ ...drop, editedAt: at(2) }] };
    const changed = withDrop({
      changes: { [measures[1]]: idOf(20) },
      changedAt: { [measures[1]]: at(1) },
    });
    const merged = mergeTunes(off, changed);
    expect(merged.layers).toEqual([plain]);
    expect(merged.layerShelf?.[0]?.changes).toMatchObject({ [measures[1]]: idOf(20) });
    const back = mergeTunes(merged, withDrop({ editedAt: at(3) }));
    expect(back.layerShelf).toBeUndefined();
    expect(back.layers[1]?.changes).toMatchObject({ [measures[1]]: idOf(20) });
  });
});
