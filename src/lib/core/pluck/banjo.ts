import type { PluckCue } from '../rhythm/pluck-cue';
import { Body } from './body';
import { seededNoise } from './noise';
import { StringLoop, type StringVoice } from './string-loop';

/**
 * Strings 1 to 5. Times are ours, inside the half to one and a half seconds in which a banjo string falls away
 * (common practice), longest on the thick string. Open pitches are those of gDGBD: a string rings the shorter, the higher
 * above it.
 */
const STRINGS: readonly StringVoice[] = [
  { openPitch: 62, fundamentalSec: 1.1, brightSec: 0.55 },
  { openPitch: 59, fundamentalSec: 1.2, brightSec: 0.55 },
  { openPitch: 55, fundamentalSec: 1.3, brightSec: 0.55 },
  { openPitch: 50, fundamentalSec: 1.5, brightSec: 0.6 },
  { openPitch: 67, fundamentalSec: 0.9, brightSec: 0.5 },
];

/** Leaves the loudest brush among ringing strings 3 dB under full scale (`tests/core/pluck`). */
const OUTPUT_GAIN = 0.22;

/** Of a melody note. */
export const MELODY_STRENGTH = 0.85;

/** Long enough not to pop, short enough to be "at once". */
const SILENCE_SEC = 0.004;

const NOISE_LENGTH = 4096;

/**
 * A five-string banjo as samples. It holds no clock: every call goes on where the one before ended. The same touches
 * give the same samples, whatever the length of the stretches. Only the constructor allocates.
 */
export class Banjo {
  readonly #strings: readonly StringLoop[];
  readonly #body: Body;
  readonly #fall: number;
  #gain = 1;
  #isFalling = false;

  constructor(sampleRate: number) {
    this.#strings = STRINGS.map(
      (voice, index) => new StringLoop(sampleRate, voice, seededNoise(NOISE_LENGTH, 2_463_534_242 + index)),
    );
    this.#body = new Body(sampleRate);
    this.#fall = 1 / (SILENCE_SEC * sampleRate);
  }

  /** Touches a string from the next frame on; `at` is left to the caller. A touch during the fade of `silence` ends the fade. */
  touch(cue: Omit<PluckCue, 'at'>): void {
    if (this.#isFalling) this.#clear();
    const { string, pitch, touch = 'nail', fromPitch = null, glideSec = 0, strength = MELODY_STRENGTH } = cue;
    this.#strings[string - 1]!.touch(touch, pitch, strength, fromPitch, glideSec);
  }

  /** Writes the next samples into `output[from]` up to `output[to - 1]`. */
  render(output: Float32Array, from: number, to: number): void {
    output.fill(0, from, to);
    for (let string = 0; string < this.#strings.length; string++)
      this.#strings[string]!.add(output, from, to);
    this.#body.filter(output, from, to);
    for (let index = from; index < to; index++) {
      if (this.#isFalling) this.#gain = Math.max(0, this.#gain - this.#fall);
      output[index]! *= OUTPUT_GAIN * this.#gain;
    }
    if (this.#isFalling && this.#gain === 0) this.#clear();
  }

  /** Fades everything out within 4 ms. */
  silence(): void {
    this.#isFalling = true;
  }

  #clear(): void {
    for (const string of this.#strings) string.clear();
    this.#body.clear();
    this.#isFalling = false;
    this.#gain = 1;
  }
}
