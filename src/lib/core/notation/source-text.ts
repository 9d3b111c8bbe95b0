import { looksLikeMacRoman, MAC_ROMAN, WINDOWS_1252 } from './eight-bit-text';

const PIECE = 8192;

/**
 * Text by its byte order mark; else (`guessed`) as UTF-16 where every other byte is zero, as Latin letters have it; else
 * as UTF-8 where all of it is that; else (`guessed`) as Mac Roman where that makes clearly better words, or Windows-1252.
 */
export function sourceText(bytes: Uint8Array): { text: string; encoding: string; guessed: boolean } {
  const [first, second] = bytes;
  if (first === 0xff && second === 0xfe)
    return { text: utf16Text(bytes, 2, 'little'), encoding: 'UTF-16', guessed: false };
  if (first === 0xfe && second === 0xff)
    return { text: utf16Text(bytes, 2, 'big'), encoding: 'UTF-16', guessed: false };
  const order = unmarkedOrder(bytes);
  if (order) return { text: utf16Text(bytes, 0, order), encoding: 'UTF-16', guessed: true };
  const text = utf8(bytes);
  if (text !== null) return { text: text.replace(/^\ufeff/, ''), encoding: 'UTF-8', guessed: false };
  const isMac = looksLikeMacRoman(bytes);
  const high = isMac ? MAC_ROMAN : WINDOWS_1252;
  return {
    text: joined(bytes.length, (at) => {
      const byte = bytes[at] ?? 0;
      return byte < 0x80 ? byte : high.charCodeAt(byte - 0x80);
    }),
    encoding: isMac ? 'Mac Roman' : 'Windows-1252',
    guessed: true,
  };
}

/** Bytes looked at for zeros. */
const LOOKED_AT = 4096;

/** UTF-16 without a mark, by the zeros that its Latin letters have in one half of each pair; `null` for anything else. */
function unmarkedOrder(bytes: Uint8Array): 'big' | 'little' | null {
  const pairs = Math.floor(Math.min(bytes.length, LOOKED_AT) / 2);
  let [zeroFirst, zeroSecond] = [0, 0];
  for (let pair = 0; pair < pairs; pair += 1) {
    if (bytes[pair * 2] === 0) zeroFirst += 1;
    if (bytes[pair * 2 + 1] === 0) zeroSecond += 1;
  }
  const isMost = (count: number) => pairs >= 4 && count >= pairs * 0.6;
  const isNone = (count: number) => count <= pairs * 0.02;
  if (isMost(zeroSecond) && isNone(zeroFirst)) return 'little';
  return isMost(zeroFirst) && isNone(zeroSecond) ? 'big' : null;
}

/** `null` where the bytes are not UTF-8 (RFC 3629). */
function utf8(bytes: Uint8Array): string | null {
  const points: number[] = [];
  const pieces: string[] = [];
  for (let at = 0; at < bytes.length;) {
    const lead = bytes[at] ?? 0;
    const more = lead < 0x80 ? 0 : lead >= 0xf0 ? 3 : lead >= 0xe0 ? 2 : 1;
    if ((lead >= 0x80 && lead < 0xc2) || lead > 0xf4) return null;
    let point = more === 0 ? lead : lead & (0x3f >> more);
    for (let step = 1; step <= more; step += 1) {
      const byte = bytes[at + step] ?? 0;
      if ((byte & 0xc0) !== 0x80) return null;
      point = (point << 6) | (byte & 0x3f);
    }
    const isTooLong = (more === 2 && point < 0x800) || (more === 3 && point < 0x10000);
    if (isTooLong || point > 0x10ffff || (point >= 0xd800 && point <= 0xdfff)) return null;
    points.push(point);
    at += more + 1;
    if (points.length === PIECE) pieces.push(String.fromCodePoint(...points.splice(0)));
  }
  return pieces.join('') + String.fromCodePoint(...points);
}

/** UTF-16 from a place on, its bytes in either order; half a letter (a lone surrogate, an odd last byte) is U+FFFD. */
export function utf16Text(bytes: Uint8Array, from: number, order: 'big' | 'little'): string {
  const units = joined(Math.floor((bytes.length - from) / 2), (pair) => {
    const at = from + pair * 2;
    const [one, other] = [bytes[at] ?? 0, bytes[at + 1] ?? 0];
    return order === 'big' ? one * 256 + other : other * 256 + one;
  });
  const isOdd = (bytes.length - from) % 2 === 1;
  return (isOdd ? `${units.replace(/[\ud800-\udbff]$/, '')}\ufffd` : units).replace(
    /[\ud800-\udfff]/gu,
    '\ufffd',
  );
}

function joined(length: number, unitAt: (index: number) => number): string {
  const pieces: string[] = [];
  for (let from = 0; from < length; from += PIECE) {
    const count = Math.min(PIECE, length - from);
    pieces.push(String.fromCharCode(...Array.from({ length: count }, (_, index) => unitAt(from + index))));
  }
  return pieces.join('');
}
