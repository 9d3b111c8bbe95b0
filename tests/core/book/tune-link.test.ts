import { deflateSync } from 'fflate';
import fc from 'fast-check';
import { readFileSync } from 'node:fs';
import { v7 } from 'uuid';
import { describe, expect, it } from 'vitest';
import { base64url, bytesOfBase64url } from '$lib/core/book/base64url';
import type { Book } from '$lib/core/book/book';
import { checkTune } from '$lib/core/book/schema';
import { handedOn, readTuneLink, writeTuneLink } from '$lib/core/book/tune-link';
import { someBook } from './made-up-books';

const demo = JSON.parse(readFileSync('sample-data/demo-book.json', 'utf8')) as Book;
const tunes = someBook.filter((book) => book.tunes.length > 0).map(({ tunes: [tune] }) => tune!);

describe('base64url', () => {
  it('writes the examples of RFC 4648 section 10, without their padding', () => {
    const examples = {
      '': '',
      f: 'Zg',
      fo: 'Zm8',
      foo: 'Zm9v',
      foob: 'Zm9vYg',
      fooba: 'Zm9vYmE',
      foobar: 'Zm9vYmFy',
    };
    for (const [text, letters] of Object.entries(examples)) {
      expect(base64url(new TextEncoder().encode(text))).toBe(letters);
      expect(bytesOfBase64url(letters)).toEqual(new TextEncoder().encode(text));
    }
  });

  it('writes what Node writes, and reads it back', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => {
        expect(base64url(bytes)).toBe(Buffer.from(bytes).toString('base64url'));
        expect(bytesOfBase64url(base64url(bytes))).toEqual(bytes);
      }),
    );
  });

  it('refuses other letters and lengths that cannot be', () => {
    for (const text of ['a', 'ab+c', 'ab/c', 'ab==', 'a b', 'é0']) expect(bytesOfBase64url(text)).toBeNull();
  });
});

describe('a tune in a link', () => {
  it('comes back as it was', () => {
    fc.assert(
      fc.property(tunes, (tune) => {
        expect(readTuneLink(writeTuneLink(tune))).toEqual({ ok: true, tune });
      }),
      { numRuns: 60 },
    );
  });

  it('keeps titles that look like what it writes for ids', () => {
    const [tune] = demo.tunes;
    for (const title of ['~0', '~~12', '"~1"', String(tune?.id), `"${String(tune?.id)}"`, '~']) {
      const titled = { ...tune!, title };
      expect(readTuneLink(writeTuneLink(titled))).toEqual({ ok: true, tune: titled });
    }
  });

  it('carries a demo tune as one of its own, with new ids, in some thousand letters', () => {
    for (const tune of demo.tunes) {
      const handed = handedOn(tune, v7);
      expect(handed).toMatchObject({ title: tune.title, origin: 'own' });
      const ids = (of: unknown) => new Set(JSON.stringify(of).match(/[0-9a-f]{8}-[0-9a-f-]{27}/g));
      expect([...ids(handed)].filter((id) => ids(tune).has(id))).toEqual([]);
      expect(ids(handed).size).toBe(ids({ ...tune, shelf: [], layerShelf: [] }).size);
      const letters = writeTuneLink(handed);
      expect(letters.length).toBeLessThan(1600);
      expect(readTuneLink(letters)).toEqual({ ok: true, tune: handed });
    }
  });

  it('hands on what stands on the board, sound as a tune, whatever was taken off it', () => {
    fc.assert(
      fc.property(tunes, (tune) => {
        const handed = handedOn(tune, v7);
        expect(handed).not.toHaveProperty('shelf');
        expect(handed).not.toHaveProperty('layerShelf');
        expect(handed.deletedAt).toBeNull();
        expect(checkTune(handed)).toMatchObject({ ok: true });
      }),
      { numRuns: 60 },
    );
  });

  it('says what is wrong with letters that were cut, changed, too new or no tune, and never throws', () => {
    const letters = writeTuneLink(demo.tunes[0]!);
    const damage = (text: string) => {
      const reading = readTuneLink(text);
      return reading.ok ? 'fine' : reading.damage;
    };
    expect(damage('')).toMatch(/missing/);
    expect(damage(letters.slice(0, 500))).toMatch(/missing/);
    expect(damage('not a link!')).toMatch(/missing/);
    expect(damage(base64url(deflateSync(new Uint8Array([9, 0, 0]))))).toMatch(/newer/);
    expect(damage(base64url(deflateSync(new Uint8Array([1, 0, 0, 123, 125]))))).not.toBe('fine');
    fc.assert(
      fc.property(fc.nat(letters.length - 1), fc.base64String(), (at, other) => {
        expect(typeof damage(letters.slice(0, at) + other + letters.slice(at + 1))).toBe('string');
      }),
    );
  });

  it('does not unpack what would fill the memory', () => {
    const bomb = base64url(deflateSync(new Uint8Array(12_000_000), { level: 9 }));
    expect(readTuneLink(bomb)).toMatchObject({ ok: false });
  });
});
