/** A number in a fixed count of bytes, the highest first. */
export function bytesOfNumber(value: number, count: number): number[] {
  return Array.from({ length: count }, (_, index) => Math.floor(value / 256 ** (count - 1 - index)) % 256);
}

/** A variable-length quantity (Standard MIDI File 1.0): seven bits a byte, the highest bit on all but the last. 0 to 2^28 - 1. */
export function deltaBytes(value: number): number[] {
  const bytes = [value % 128];
  for (let rest = Math.floor(value / 128); rest > 0; rest = Math.floor(rest / 128)) {
    bytes.unshift(128 + (rest % 128));
  }
  return bytes;
}

export function chunk(type: 'MThd' | 'MTrk', bytes: readonly number[]): number[] {
  return [...[...type].map((letter) => letter.charCodeAt(0)), ...bytesOfNumber(bytes.length, 4), ...bytes];
}

/** Text on one line as UTF-8, which readers of today expect; the standard of 1988 knows ASCII only. */
export function textBytes(text: string): number[] {
  // a lone surrogate has no UTF-8 form; the encoder writes U+FFFD for it
  const encoded = encodeURIComponent(text.replace(/\s+/g, ' ').toWellFormed());
  return [...encoded.matchAll(/%([0-9A-F]{2})|(.)/g)].map(([, hex, letter]) =>
    hex ? parseInt(hex, 16) : (letter?.charCodeAt(0) ?? 32),
  );
}
