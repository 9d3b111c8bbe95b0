import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readBackup, writeBackup } from '../../../src/lib/core/book/backup';
import { BackupReader, bookPieces, type StreamVerdict } from '../../../src/lib/core/book/backup-reader';
import { BackupWriter } from '../../../src/lib/core/book/backup-writer';
import { bookCounts, emptyBook, sortBook, type Book } from '../../../src/lib/core/book/book';
import { BookChecksum, RECORD_KINDS } from '../../../src/lib/core/book/book-checksum';
import { canonicalJson } from '../../../src/lib/core/book/canonical-json';
import { LINE_CHARACTERS_MAX } from '../../../src/lib/core/book/limits';
import { SMALL_BOOK, someBook, START } from './made-up-books';

const NOW = { at: START, offsetMin: -300 };

function read(texts: readonly string[]): { verdict: StreamVerdict; book: Book } {
  const book = emptyBook();
  const reader = new BackupReader({ onRecord: (kind, record) => (book[kind] as unknown[]).push(record) });
  for (const text of texts) if (!reader.push(text)) break;
  return { verdict: reader.finish(), book };
}

/** The text cut at every so many characters, a few of them longer than most lines. */
function cut(text: string, steps: readonly number[]): string[] {
  const pieces: string[] = [];
  for (let from = 0, turn = 0; from < text.length; turn++) {
    const step = steps[turn % steps.length] ?? 1;
    pieces.push(text.slice(from, from + step));
    from += step;
  }
  return pieces;
}

const someSteps = fc.array(fc.integer({ min: 1, max: 400 }), { minLength: 1, maxLength: 6 });

describe('a backup in pieces', () => {
  test('is read as the same book, wherever the text is cut', () => {
    fc.assert(
      fc.property(someBook, someSteps, (book, steps) => {
        const { verdict, book: found } = read(cut(writeBackup(book, NOW), steps));
        expect(verdict).toMatchObject({ ok: true, exportedAt: NOW, counts: bookCounts(book) });
        expect(found).toEqual(sortBook(book));
      }),
    );
  });

  test('is written as the same file, record by record or all at once', () => {
    fc.assert(
      fc.property(someBook, (book) => {
        const sorted = sortBook(book);
        const writer = new BackupWriter(NOW);
        const texts = [
          ...sorted.settings.map((row) => writer.add('settings', [row])),
          ...sorted.sittings.map((sitting) => writer.add('sittings', [sitting])),
          ...sorted.tunes.map((tune) => writer.add('tunes', [tune])),
        ];
        expect(writer.counts).toEqual(bookCounts(book));
        expect([...texts, writer.finish()].join('')).toBe(writeBackup(book, NOW));
      }),
    );
  });

  test('of an app that put its counts before the records is read as it is', () => {
    const old = readFileSync(new URL('../../fixtures/books/version-1.json', import.meta.url), 'utf8');
    expect(old.indexOf('"counts"')).toBeLessThan(old.indexOf('"tunes"'));
    const { verdict, book } = read(cut(old, [777]));
    expect(verdict).toMatchObject({ ok: true });
    expect(book).toEqual(sortBook(SMALL_BOOK));
  });

  test('survives a byte order mark and the line ends of another system', () => {
    const text = `\uFEFF${writeBackup(SMALL_BOOK, NOW).replaceAll('\n', '\r\n')}`;
    expect(read([text]).verdict).toMatchObject({ ok: true });
  });
});

describe('a damaged backup', () => {
  test('is refused in pieces exactly when it is refused whole, or left to be read whole', () => {
    const text = writeBackup(SMALL_BOOK, NOW);
    const letters = fc.constantFrom('0', 'q', '}', ' ', ',', '\n', '"', '');
    fc.assert(
      fc.property(fc.nat(text.length - 1), letters, someSteps, (at, letter, steps) => {
        const changed = text.slice(0, at) + letter + text.slice(at + 1);
        const { verdict } = read(cut(changed, steps));
        const whole = readBackup(changed);
        if (verdict.isStrange) expect(verdict.damage[0]).toMatch(/\w/);
        else expect(verdict.ok).toBe(whole.ok);
        if (!verdict.ok && !verdict.isStrange && !whole.ok) expect(verdict.damage).toEqual(whole.damage);
      }),
      { numRuns: 500 },
    );
  });

  test('cut short is never taken for whole', () => {
    const text = writeBackup(SMALL_BOOK, NOW);
    for (let end = 0; end < text.length - 2; end += 7) {
      const { verdict } = read([text.slice(0, end)]);
      expect(verdict).toMatchObject({ ok: false, isStrange: true });
    }
  });

  test('says in which line it stops', () => {
    const text = writeBackup(SMALL_BOOK, NOW);
    const lines = text.split('\n');
    const half = [...lines.slice(0, 9), lines[9]!.slice(0, 30)].join('\n');
    const damageOf = (broken: string) => {
      const { verdict } = read([broken]);
      return verdict.ok ? [] : verdict.damage;
    };
    expect(damageOf(half)).toEqual(['the file ends too soon at line 10, column 31']);
    expect(damageOf(text.slice(0, text.indexOf('"checksum"')))).toEqual([
      'the file ends too soon at line 15',
    ]);
    const flawed = text.replace('"goalTempo":104', '"goalTempo":1O4');
    expect(damageOf(flawed)[0]).toMatch(/^the file is not JSON at line 13, column \d+$/);
  });

  test('of a newer version stops the reading at once', () => {
    const text = writeBackup(SMALL_BOOK, NOW).replace('"version":3', '"version":4');
    const reader = new BackupReader();
    expect(reader.push(text.slice(0, 60))).toBe(false);
    expect(reader.finish()).toEqual({
      ok: false,
      damage: ['the backup is of version 4, and this app reads version 3: update the app first'],
    });
  });

  test('with a line without end is not held in memory', () => {
    const reader = new BackupReader();
    const piece = 'x'.repeat(1_000_000);
    let pushed = 0;
    while (reader.push(piece) && pushed < 2 * LINE_CHARACTERS_MAX) pushed += piece.length;
    expect(pushed).toBeLessThanOrEqual(LINE_CHARACTERS_MAX);
    expect(reader.finish()).toMatchObject({ ok: false });
  });

  test('with a record twice names it', () => {
    const twice = { ...SMALL_BOOK, settings: [SMALL_BOOK.settings[0]!, SMALL_BOOK.settings[0]!] };
    expect(read([writeBackup(twice, NOW)]).verdict).toEqual({
      ok: false,
      damage: ['settings: record minutes stands twice'],
    });
  });
});

describe('a book in pieces', () => {
  const passages = 60;
  const long: Book = {
    ...SMALL_BOOK,
    sittings: Array.from({ length: passages }, (_, index) => {
      const sitting = SMALL_BOOK.sittings[0]!;
      const tail = String(index).padStart(12, '0');
      const id = sitting.id.replace(/.{12}$/, tail);
      const drills = sitting.drills.map((drill) => ({ ...drill, sittingId: id }));
      const first = sitting.log[0]!;
      const log = Array.from({ length: 400 }, (_, n) => ({
        ...first,
        id: first.id.replace(/.{12}$/, String(n).padStart(12, '0')),
      }));
      return { ...sitting, id, drills, log };
    }),
  };
  const text = writeBackup(long, NOW);
  const { verdict } = read([text]);
  const checksum = verdict.ok ? verdict.checksum : '';

  test('comes whole and in more than one', () => {
    const pieces = [...bookPieces(cut(text, [50_000]), checksum)];
    expect(pieces.length).toBeGreaterThan(1);
    const united = {
      settings: pieces.flatMap(({ settings }) => settings),
      sittings: pieces.flatMap(({ sittings }) => sittings),
      tunes: pieces.flatMap(({ tunes }) => tunes),
    };
    expect(united).toEqual(sortBook(long));
  });

  test('and ends in an error when the file is another one by now', () => {
    const other = writeBackup({ ...long, settings: [] }, NOW);
    expect(() => [...bookPieces([other], checksum)]).toThrow('changed');
    expect(() => [...bookPieces([text.slice(0, -200)], checksum)]).toThrow('changed');
  });
});

// reference: SHA-256 of Node's OpenSSL over the canonical JSON made in one go
test('the checksum of records one by one is that of the whole', () => {
  fc.assert(
    fc.property(someBook, (book) => {
      const sorted = sortBook(book);
      const checksum = new BookChecksum();
      for (const kind of RECORD_KINDS) {
        for (const record of sorted[kind]) checksum.add(kind, canonicalJson(record));
      }
      const { settings, sittings, tunes } = sorted;
      const body = canonicalJson({ settings, sittings, tunes });
      expect(checksum.digest()).toBe(createHash('sha256').update(body).digest('hex'));
    }),
    { numRuns: 30 },
  );
});
