import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { makeBackupSchema } from '../../../sample-data/make-backup-schema';
import { readBackup, writeBackup } from '../../../src/lib/core/book/backup';
import { canonicalJson } from '../../../src/lib/core/book/canonical-json';
import { SETTING_DEFAULTS, SETTING_NAMES, settingRow } from '../../../src/lib/core/book/settings';
import { OLDER_BOOKS, SMALL_BOOK, someBook, START } from './made-up-books';

const FILE = 'static/backup-schema.json';
const NOW = { at: START, offsetMin: 60 };
const text = readFileSync(FILE, 'utf8');

// reference: ajv, which reads JSON Schema 2020-12 and knows nothing of our schemas
const fits = new Ajv2020({
  strict: true,
  strictTypes: false,
  strictTuples: false,
  strictRequired: false,
}).compile(JSON.parse(text) as object);
const valid = (file: unknown): boolean => fits(file);

describe('the JSON Schema of a backup', () => {
  test('is what its script makes of the schemas that check a backup', () => {
    expect(makeBackupSchema()).toBe(text);
  });

  test('takes every backup that the app writes', () => {
    fc.assert(
      fc.property(someBook, (book) => {
        expect(valid(JSON.parse(writeBackup(book, NOW)))).toBe(true);
      }),
    );
    const rows = SETTING_NAMES.map((key) => settingRow(key, SETTING_DEFAULTS[key], START));
    expect(valid(JSON.parse(writeBackup({ ...SMALL_BOOK, settings: rows }, NOW)))).toBe(true);
  });

  test('takes those of before, and the demo', () => {
    const older = OLDER_BOOKS.map(({ version }) => `tests/fixtures/books/version-${version}.json`);
    for (const file of [...older, 'sample-data/demo-book.json']) {
      expect(valid(JSON.parse(readFileSync(file, 'utf8'))), file).toBe(true);
    }
  });

  test('refuses what is wrong in any place, and nothing that the app would take', () => {
    const wrongs = [null, -1, 1.25, 'x', [], {}, true, 1e15];
    let refused = 0;
    fc.assert(
      fc.property(fc.nat(), fc.constantFrom(...wrongs), (at, wrong) => {
        const file = JSON.parse(writeBackup(SMALL_BOOK, NOW)) as Record<string, unknown>;
        const places = placesOf(file);
        const { holder, key } = places[at % places.length]!;
        holder[key] = structuredClone(wrong);
        const { settings, sittings, tunes } = file;
        file['checksum'] = createHash('sha256')
          .update(canonicalJson({ settings, sittings, tunes }))
          .digest('hex');
        const isValid = valid(file);
        if (!isValid) refused += 1;
        if (readBackup(JSON.stringify(file)).ok)
          expect(isValid, `${key}: ${JSON.stringify(wrong)}`).toBe(true);
      }),
      { numRuns: 400, examples: layerChanges().map((at): [number, never[]] => [at, []]) },
    );
    expect(refused).toBeGreaterThan(200);
  });

  test('names no field that is not one, and misses none', () => {
    const file = JSON.parse(writeBackup(SMALL_BOOK, NOW)) as Record<string, unknown>;
    expect(valid({ ...file, more: 1 })).toBe(false);
    for (const key of Object.keys(file)) {
      const { [key]: _gone, ...rest } = file;
      expect(valid(rest), key).toBe(false);
    }
  });
});

interface Place {
  holder: Record<string, unknown>;
  key: string;
}

/** Which places of the small book's backup are what a layer changes: values by id, for which a list was once taken. */
function layerChanges(): number[] {
  const places = placesOf(JSON.parse(writeBackup(SMALL_BOOK, NOW)));
  return places.flatMap(({ key }, at) => (key === 'changes' ? [at] : []));
}

/** Every place of a file but the checksum, which the test puts right itself. */
function placesOf(value: unknown): Place[] {
  if (typeof value !== 'object' || value === null) return [];
  const holder = value as Record<string, unknown>;
  return Object.keys(holder).flatMap((key) => [
    ...(key === 'checksum' ? [] : [{ holder, key }]),
    ...placesOf(holder[key]),
  ]);
}
