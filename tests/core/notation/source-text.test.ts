import fc from 'fast-check';
import { expect, test } from 'vitest';
import { MAC_ROMAN, WINDOWS_1252 } from '../../../src/lib/core/notation/eight-bit-text';
import { sourceText } from '../../../src/lib/core/notation/source-text';

test('text in UTF-8 or UTF-16 is decoded as the platform decoder decodes them (TextDecoder of the WHATWG Encoding Standard)', () => {
  const texts = fc.string({ unit: 'binary' }).map((text) => new TextEncoder().encode(text));
  // bytes among which half letters (surrogates) are common, behind either mark
  const units = fc.array(fc.constantFrom(0x41, 0, 0xd8, 0xdb, 0xdc, 0xdf, 0xff), { maxLength: 9 });
  const markedUtf16 = fc
    .tuple(fc.constantFrom([0xff, 0xfe], [0xfe, 0xff]), units)
    .map(([mark, rest]) => Uint8Array.from([...mark, ...rest]));
  fc.assert(
    fc.property(fc.oneof(fc.uint8Array({ maxLength: 4 }), texts, markedUtf16), (bytes) => {
      const { text, encoding, guessed } = sourceText(bytes);
      // Node 20 decodes Windows-1252 as Latin 1 (0x82 is U+201A in the standard's index), so it is no witness there
      fc.pre(!guessed);
      expect(text).toBe(
        new TextDecoder(encoding === 'UTF-16' && bytes[0] === 0xfe ? 'utf-16be' : encoding).decode(bytes),
      );
    }),
    {
      numRuns: 300,
      examples: [
        [Uint8Array.of(0xff, 0xfe, 0x41)],
        [Uint8Array.of(0xfe, 0xff, 0xd8, 0)],
        [Uint8Array.of(0xfe, 0xff, 0xd8, 0, 0x41)],
      ],
    },
  );
});

test('UTF-16 of either order is read by its mark, and only a guess is called one', () => {
  const marked = (bytes: number[]) => sourceText(Uint8Array.from(bytes));
  expect(marked([0xff, 0xfe, 0x58, 0, 0x3a, 0])).toEqual({ text: 'X:', encoding: 'UTF-16', guessed: false });
  expect(marked([0xfe, 0xff, 0, 0x58, 0, 0x3a])).toEqual({ text: 'X:', encoding: 'UTF-16', guessed: false });
  expect(marked([0x93, 0x41, 0x94])).toEqual({ text: '“A”', encoding: 'Windows-1252', guessed: true });
});

test('UTF-16 without a mark is guessed by its zero bytes', () => {
  const text = 'X:1\nT:Café “Spring”\nK:G\n';
  const little = new Uint8Array(Buffer.from(text, 'utf16le'));
  const big = new Uint8Array(Buffer.from(text, 'utf16le').swap16());
  expect(sourceText(little)).toEqual({ text, encoding: 'UTF-16', guessed: true });
  expect(sourceText(big)).toEqual({ text, encoding: 'UTF-16', guessed: true });
});

test('Mac Roman is the table of the WHATWG Encoding Standard (index-macintosh, as ICU has it)', () => {
  const high = Uint8Array.from({ length: 0x80 }, (_, index) => 0x80 + index);
  expect(MAC_ROMAN).toBe(new TextDecoder('macintosh').decode(high));
});

/** The bytes of a text in an encoding of one byte a letter. */
function encoded(text: string, high: string): Uint8Array {
  return Uint8Array.from(text, (letter) => {
    const code = letter.charCodeAt(0);
    return code < 0x80 ? code : 0x80 + high.indexOf(letter);
  });
}

test.each([
  'Café du Coin',
  'Bjørn’s Reel',
  'L’Été à la Grève',
  'Märchenwald – Söderköping',
  '“Fiddle in the Sky”',
  'ÉCOLE DES GARÇONS',
  'Don’t you go…',
  'Ç’est ça',
])('%s is guessed as it was written, in Windows-1252 and in Mac Roman', (title) => {
  const text = `${title}\n\nD|-0-|\n`;
  expect(sourceText(encoded(text, WINDOWS_1252))).toMatchObject({
    text,
    encoding: 'Windows-1252',
    guessed: true,
  });
  expect(sourceText(encoded(text, MAC_ROMAN))).toMatchObject({ text, encoding: 'Mac Roman', guessed: true });
});

test('a doubt goes to Windows-1252: one byte is a dash there and ñ in Mac Roman', () => {
  expect(sourceText(encoded('Mill–stream', WINDOWS_1252))).toMatchObject({ encoding: 'Windows-1252' });
  expect(sourceText(encoded('El Niño', MAC_ROMAN))).toMatchObject({ encoding: 'Windows-1252' });
});
