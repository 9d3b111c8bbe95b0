import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readBackup, writeBackup } from '../../../src/lib/core/book/backup';
import { BACKUP_VERSION } from '../../../src/lib/core/book/backup-check';
import { BackupReader } from '../../../src/lib/core/book/backup-reader';
import { emptyBook, sortBook } from '../../../src/lib/core/book/book';
import { canonicalJson } from '../../../src/lib/core/book/canonical-json';
import { findJsonFault } from '../../../src/lib/core/book/json-place';
import { OLDER_BOOKS, SMALL_BOOK, someBook, START } from './made-up-books';

const NOW = { at: START, offsetMin: -300 };
const damageOf = (text: string): string[] => {
  const reading = readBackup(text);
  return reading.ok ? [] : reading.damage;
};

/** The file with a change to its JSON and, when asked, a checksum that fits again (reference: Node's own SHA-256). */
function altered(change: (file: Record<string, unknown>) => void, resign = false): string {
  const file = JSON.parse(writeBackup(SMALL_BOOK, NOW)) as Record<string, unknown>;
  change(file);
  if (resign) {
    const { settings, sittings, tunes } = file;
    file['checksum'] = createHash('sha256')
      .update(canonicalJson({ settings, sittings, tunes }))
      .digest('hex');
  }
  return JSON.stringify(file);
}

describe('a backup', () => {
  test('reads back record by record', () => {
    fc.assert(
      fc.property(someBook, (book) => {
        expect(readBackup(writeBackup(book, NOW))).toEqual({
          ok: true,
          book: sortBook(book),
          exportedAt: NOW,
        });
      }),
    );
    expect(readBackup(writeBackup(emptyBook(), NOW))).toMatchObject({ ok: true, book: emptyBook() });
  });

  test.each(OLDER_BOOKS)('of version $version is read as it is', ({ version, book }) => {
    const old = readFileSync(
      new URL(`../../fixtures/books/version-${version}.json`, import.meta.url),
      'utf8',
    );
    expect(old).toContain(`"version":${version},`);
    expect(readBackup(old)).toMatchObject({ ok: true, book: sortBook(book) });
  });

  test('is kept of every version before the present one', () => {
    expect(OLDER_BOOKS.map(({ version }) => version + 1)).toContain(BACKUP_VERSION);
  });

  test('says what it is and what it holds', () => {
    const file = JSON.parse(writeBackup(SMALL_BOOK, NOW)) as Record<string, unknown>;
    expect(file).toMatchObject({ format: 'phrasewright-backup', version: BACKUP_VERSION, exportedAt: NOW });
    expect(file['counts']).toEqual({ tunes: 1, sittings: 1, drills: 1, passes: 2, settings: 2 });
  });

  // reference: SHA-256 of Node's OpenSSL
  test('carries the checksum that another SHA-256 computes', () => {
    const file = JSON.parse(writeBackup(SMALL_BOOK, NOW)) as Record<string, unknown>;
    const { settings, sittings, tunes, checksum } = file;
    const body = canonicalJson({ settings, sittings, tunes });
    expect(checksum).toBe(createHash('sha256').update(body, 'utf8').digest('hex'));
  });

  test('survives a byte order mark and pretty printing', () => {
    const pretty = JSON.stringify(JSON.parse(writeBackup(SMALL_BOOK, NOW)), null, 4);
    expect(readBackup(`\uFEFF${pretty}`)).toMatchObject({ ok: true });
  });
});

describe('a damaged backup is refused with its damage named', () => {
  test('a file cut short anywhere, or with one character changed', () => {
    const text = writeBackup(SMALL_BOOK, NOW);
    fc.assert(
      fc.property(fc.integer({ min: 0, max: text.length - 3 }), (end) => {
        expect(damageOf(text.slice(0, end))).not.toEqual([]);
      }),
    );
    const from = text.indexOf('"settings"');
    fc.assert(
      fc.property(
        fc.integer({ min: from, max: text.length - 3 }),
        fc.constantFrom('0', 'q', '}', ' '),
        (at, letter) => {
          const changed = text.slice(0, at) + letter + text.slice(at + 1);
          const reading = readBackup(changed);
          // white space for white space is the same file
          if (reading.ok) expect(reading.book).toEqual(sortBook(SMALL_BOOK));
          else expect(reading.damage[0]).toMatch(/\w/);
        },
      ),
    );
  });

  test('where it stops being JSON', () => {
    expect(damageOf('')).toEqual(['the file is empty']);
    expect(damageOf('{\n  "format": x')).toEqual(['the file is not JSON at line 2, column 13']);
    expect(damageOf('{"format":"phrase')).toEqual(['the file is not JSON at line 1, column 11']);
    expect(damageOf('{"a":[1,2')).toEqual(['the file ends too soon at line 1, column 10']);
  });

  test('another format, a newer version, a strange field', () => {
    expect(damageOf('[1]')[0]).toMatch(/^the file is not a Phrasewright backup/);
    expect(damageOf('null')[0]).toMatch(/^the file is not a Phrasewright backup/);
    expect(damageOf(altered((file) => (file['version'] = 4)))).toEqual([
      'the backup is of version 4, and this app reads version 3: update the app first',
    ]);
    expect(damageOf(altered((file) => (file['more'] = 1)))).toEqual(['"more" is not a field of a backup']);
    expect(damageOf(altered((file) => (file['counts'] = {})))).toEqual([
      'counts: {} is not what the file holds',
    ]);
  });

  test('a record changed by hand, and one changed with its checksum', () => {
    const slow = (file: Record<string, unknown>): void => {
      (file['tunes'] as { goalTempo: number }[])[0]!.goalTempo = 90;
    };
    expect(damageOf(altered(slow))).toEqual([
      'the checksum does not fit: the file was changed, or lost a part, after it was written',
    ]);
    expect(readBackup(altered(slow, true))).toMatchObject({ ok: true });
    const wild = (file: Record<string, unknown>): void => {
      (file['tunes'] as { goalTempo: number }[])[0]!.goalTempo = 9000;
    };
    expect(damageOf(altered(wild, true))).toEqual([
      'tunes, 1st record, goal tempo: 9000 is outside 20 to 300',
    ]);
  });

  test('nested without end', () => {
    const deep = '['.repeat(200_000) + ']'.repeat(200_000);
    const inCounts = writeBackup(SMALL_BOOK, NOW).replace(/"counts":\{[^}]*\}/, `"counts":${deep}`);
    expect(damageOf(inCounts)).toEqual(['the file is nested too deeply to be a backup']);
    const inRecord = `{"format":"phrasewright-backup","version":1,"settings":${deep}}`;
    expect(damageOf(inRecord)).toEqual(['the file is nested too deeply to be a backup']);
    // brackets in a text are none
    const note = `"${'[\\\\'.repeat(40_000)}\\""`;
    const about = writeBackup(SMALL_BOOK, NOW).replace('"settings":[', `"more":${note},\n"settings":[`);
    expect(damageOf(about)).toEqual(['"more" is not a field of a backup']);
  });

  // before it was looked for, the reader of JSON took sixty bytes a bracket, and the page was gone
  test('nested without end in one line of the streamed layout', () => {
    const reader = new BackupReader();
    const line = '['.repeat(10_000_000);
    const text = writeBackup(SMALL_BOOK, NOW).replace('"settings":[\n', `"settings":[\n${line}`);
    const before = process.resourceUsage().maxRSS;
    reader.push(text);
    expect(reader.finish()).toEqual({ ok: false, damage: ['the file is nested too deeply to be a backup'] });
    // kilobytes
    expect(process.resourceUsage().maxRSS - before).toBeLessThan(100_000);
  });

  test('and never throws', () => {
    fc.assert(fc.property(fc.oneof(fc.string(), fc.json()), (text) => damageOf(text).length > 0));
  });
});

describe('findJsonFault', () => {
  // reference: the engine's own JSON.parse
  test('finds a fault exactly when JSON.parse does', () => {
    const parses = (text: string): boolean => {
      try {
        JSON.parse(text);
        return true;
      } catch {
        return false;
      }
    };
    const broken = fc
      .tuple(fc.json(), fc.nat(), fc.constantFrom('', ',', ']', '}', '"', '0', '-', '\\', ':', 'e', '\n'))
      .map(([text, at, letter]) => {
        const place = at % (text.length + 1);
        return text.slice(0, place) + letter + text.slice(place + (at % 2));
      });
    fc.assert(
      fc.property(fc.oneof(fc.json(), broken), (text) => {
        expect(findJsonFault(text) === null).toBe(parses(text));
      }),
      { numRuns: 2000 },
    );
  });
});

// RFC 8785 section 3.2.3, its sorting sample without the last two keys (values from memory)
test('canonical JSON sorts keys by code unit and keeps the order of lists', () => {
  expect(
    canonicalJson({ '\u20ac': 'Euro Sign', '\r': 'Carriage Return', 1: 'One', '\u0080': 'Control' }),
  ).toBe('{"\\r":"Carriage Return","1":"One","\u0080":"Control","\u20ac":"Euro Sign"}');
  expect(canonicalJson([3, { b: undefined, a: [null, 1e21, -0] }])).toBe('[3,{"a":[null,1e+21,0]}]');
});
