const HEADER_BYTES = 44;
const FULL_SCALE = 32767;

/**
 * Samples from -1 to 1 as a WAVE file: one channel, 16-bit PCM, little-endian (RIFF/WAVE, Microsoft and IBM 1991). What
 * lies outside is cut at full scale.
 */
export function wavBytes(samples: Float32Array, sampleRate: number): Uint8Array {
  const bytes = new Uint8Array(HEADER_BYTES + samples.length * 2);
  const view = new DataView(bytes.buffer);
  const word = (at: number, text: string) => {
    for (let index = 0; index < 4; index++) view.setUint8(at + index, text.charCodeAt(index));
  };
  word(0, 'RIFF');
  view.setUint32(4, bytes.length - 8, true);
  word(8, 'WAVE');
  word(12, 'fmt ');
  view.setUint32(16, 16, true);
  view.setUint16(20, 1, true);
  view.setUint16(22, 1, true);
  view.setUint32(24, sampleRate, true);
  view.setUint32(28, sampleRate * 2, true);
  view.setUint16(32, 2, true);
  view.setUint16(34, 16, true);
  word(36, 'data');
  view.setUint32(40, samples.length * 2, true);
  samples.forEach((sample, index) => {
    const whole = Math.round(Math.max(-1, Math.min(1, sample)) * FULL_SCALE);
    view.setInt16(HEADER_BYTES + index * 2, whole, true);
  });
  return bytes;
}
