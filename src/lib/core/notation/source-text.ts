/** Windows-1252 where it differs from Latin 1: 0x80 to 0x9F (the WHATWG Encoding Standard's index; from memory). */
const HIGH_CONTROLS = '€\x81‚ƒ„…†‡ˆ‰Š‹Œ\x8dŽ\x8f\x90‘’“”•–—˜™š›œ\x9džŸ';
const PIECE = 8192;

/** Text by its byte order mark, else as UTF-8 where all of it is that, else (`guessed`) as Windows-1252. */
export function sourceText(bytes: Uint8Array): { text: string; encoding: string; guessed: boolean } {
  const [first, second] = bytes;
  if (first === 0xff && second === 0xfe)
    return { text: utf16Text(bytes, 2, 'little'), encoding: 'UTF-16', guessed: false };
  if (first === 0xfe && second === 0xff)
    return { text: utf16Text(bytes, 2, 'big'), encoding: 'UTF-16', guessed: false };
  const text = utf8(bytes);
  if (text !== null) return { text: text.replace(/^\ufeff/, ''), encoding: 'UTF-8', guessed: false };
  return {
    text: joined(bytes.length, (at) => {
      const byte = bytes[at] ?? 0;
      return byte >= 0x80 && byte <= 0x9f ? HIGH_CONTROLS.charCodeAt(byte - 0x80) : byte;
    }),
    encoding: 'Windows-1252',
    guessed: true,
  };
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

/** UTF-16 from a place on, its bytes in either order; an odd last byte is left out. */
export function utf16Text(bytes: Uint8Array, from: number, order: 'big' | 'little'): string {
  return joined(Math.floor((bytes.length - from) / 2), (pair) => {
    const at = from + pair * 2;
    const [one, other] = [bytes[at] ?? 0, bytes[at + 1] ?? 0];
    return order === 'big' ? one * 256 + other : other * 256 + one;
  });
}

function joined(length: number, unitAt: (index: number) => number): string {
  const pieces: string[] = [];
  for (let from = 0; from < length; from += PIECE) {
    const count = Math.min(PIECE, length - from);
    pieces.push(String.fromCharCode(...Array.from({ length: count }, (_, index) => unitAt(from + index))));
  }
  return pieces.join('');
}
