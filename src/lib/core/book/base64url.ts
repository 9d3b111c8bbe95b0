const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_';

/** RFC 4648 section 5, without padding: letters that stand in a link as they are. */
export function base64url(bytes: Uint8Array): string {
  let text = '';
  for (let index = 0; index < bytes.length; index += 3) {
    const [one = 0, two = 0, three = 0] = bytes.subarray(index, index + 3);
    const bits = (one << 16) | (two << 8) | three;
    const signs = Math.min(bytes.length - index, 3) + 1;
    for (let sign = 0; sign < signs; sign++) text += LETTERS.charAt((bits >> (18 - 6 * sign)) & 63);
  }
  return text;
}

/** The bytes of such a text; `null` when a letter is not of the alphabet or the length cannot be. */
export function bytesOfBase64url(text: string): Uint8Array | null {
  if (text.length % 4 === 1) return null;
  const bytes = new Uint8Array(Math.floor((text.length * 3) / 4));
  let [bits, held, filled] = [0, 0, 0];
  for (const letter of text) {
    const value = LETTERS.indexOf(letter);
    if (value < 0) return null;
    bits = ((bits << 6) | value) & 0xffff;
    held += 6;
    if (held < 8) continue;
    held -= 8;
    bytes[filled++] = (bits >> held) & 0xff;
  }
  return bytes;
}
