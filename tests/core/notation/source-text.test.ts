import fc from 'fast-check';
import { expect, test } from 'vitest';
import { sourceText } from '../../../src/lib/core/notation/source-text';

test('text in UTF-8 or UTF-16 is decoded as the platform decoder decodes them (TextDecoder of the WHATWG Encoding Standard)', () => {
  const texts = fc.string({ unit: 'binary' }).map((text) => new TextEncoder().encode(text));
  fc.assert(
    fc.property(fc.oneof(fc.uint8Array({ maxLength: 4 }), texts), (bytes) => {
      const { text, encoding, guessed } = sourceText(bytes);
      // Node 20 decodes Windows-1252 as Latin 1 (0x82 is U+201A in the standard's index), so it is no witness there
      fc.pre(!guessed);
      expect(text).toBe(
        new TextDecoder(encoding === 'UTF-16' && bytes[0] === 0xfe ? 'utf-16be' : encoding).decode(bytes),
      );
    }),
    { numRuns: 200 },
  );
});

test('UTF-16 of either order is read by its mark, and only a guess is called one', () => {
  const marked = (bytes: number[]) => sourceText(Uint8Array.from(bytes));
  expect(marked([0xff, 0xfe, 0x58, 0, 0x3a, 0])).toEqual({ text: 'X:', encoding: 'UTF-16', guessed: false });
  expect(marked([0xfe, 0xff, 0, 0x58, 0, 0x3a])).toEqual({ text: 'X:', encoding: 'UTF-16', guessed: false });
  expect(marked([0x93, 0x41, 0x94])).toEqual({ text: '“A”', encoding: 'Windows-1252', guessed: true });
});
