/**
 * Windows-1252 from 0x80 on: Latin 1 but for 0x80 to 0x9F (the WHATWG Encoding Standard's index; from memory).
 */
export const WINDOWS_1252 =
  '€\x81‚ƒ„…†‡ˆ‰Š‹Œ\x8dŽ\x8f\x90‘’“”•–—˜™š›œ\x9džŸ' +
  String.fromCharCode(...Array.from({ length: 0x60 }, (_, index) => 0xa0 + index));

/** Mac Roman from 0x80 on (index-macintosh of the WHATWG Encoding Standard; from memory, checked against ICU in the tests). */
export const MAC_ROMAN =
  'ÄÅÇÉÑÖÜáàâäãåçéèêëíìîïñóòôöõúùûü†°¢£§•¶ß®©™´¨≠ÆØ∞±≤≥¥µ∂∑∏π∫ªºΩæø¿¡¬√ƒ≈∆«»…\u00a0ÀÃÕŒœ–—“”‘’÷◊ÿŸ⁄€‹›ﬁﬂ‡·‚„‰' +
  'ÂÊÁËÈÍÎÏÌÓÔ\uf8ffÒÚÛÙıˆ˜¯˘˙˚¸˝˛ˇ';

/** Letters beyond ASCII that are looked at: enough to tell. */
const LETTERS_MAX = 2000;
/** How much better the words of Mac Roman must be: Windows-1252 is by far the more usual. */
const CLEARLY = 2;

/** True where bytes that are not UTF-8 make clearly better words in Mac Roman than in Windows-1252. */
export function looksLikeMacRoman(bytes: Uint8Array): boolean {
  let [mac, windows, seen] = [0, 0, 0];
  for (const [at, byte] of bytes.entries()) {
    if (byte < 0x80) continue;
    mac += likelihood(bytes, at, MAC_ROMAN);
    windows += likelihood(bytes, at, WINDOWS_1252);
    seen += 1;
    if (seen === LETTERS_MAX) break;
  }
  // lines that end in a carriage return alone are that system's (common practice)
  const isOldMac = bytes.includes(0x0d) && !bytes.includes(0x0a);
  return mac + (isOldMac ? 1 : 0) >= windows + CLEARLY;
}

/** How well a letter goes with its neighbours, from -2 to 2; much less for a control character. */
function likelihood(bytes: Uint8Array, at: number, high: string): number {
  const letterAt = (index: number) => {
    const byte = bytes[index] ?? 0x20;
    return byte < 0x80 ? String.fromCharCode(byte) : high.charAt(byte - 0x80);
  };
  const [before, letter, after] = [letterAt(at - 1), letterAt(at), letterAt(at + 1)];
  const [isIn, isOut] = [isLetter(before), isLetter(after)];
  if (/\p{Cc}/u.test(letter)) return -10;
  if (!isLetter(letter)) {
    if (/[‘’“”]/.test(letter)) return 2;
    if (/[–—…«»\u00a0]/.test(letter)) return 1;
    return isIn && isOut ? -2 : 0;
  }
  if (!isIn && !isOut) return -1;
  // a capital after a small letter, or the other way round: no word
  const isCapitalInside = isLower(before) && !isLower(letter);
  const isSmallBeforeCapital = isLower(letter) && isOut && !isLower(after);
  if (isCapitalInside || isSmallBeforeCapital) return -2;
  return isLower(letter) ? 2 : 1;
}

function isLetter(text: string): boolean {
  return /\p{L}/u.test(text);
}

function isLower(text: string): boolean {
  return /\p{Ll}/u.test(text);
}
