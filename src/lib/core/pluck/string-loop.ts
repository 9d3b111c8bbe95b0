import type { Touch } from '../rhythm/pluck-cue';
import { frequencyHz } from '../tune/tuning';
import { Exciter } from './exciter';
import { kernelLength, lossTaps, writeKernel, type Loss, type LossTaps } from './loop-kernel';
import { EXCITATIONS } from './touch';

/** The range that the loop can hold at every usual sample rate: C1 to C8. */
const PITCH_MIN = 24;
const PITCH_MAX = 108;

/** In which a finger or a nail stops what the string was sounding before it is struck anew. */
const STOP_SEC = 0.003;
/** In which a hand laid on the strings stops them. */
const DAMP_SEC = 0.06;

/** Below this (-120 dB) a string is still. */
const STILL = 1e-6;

/** How long a string rings open; a stopped one rings shorter, as the square root of the frequency (ours). */
export interface StringVoice extends Loss {
  openPitch: number;
}

/** What is left of a note that has been stopped: it fades out of its own copy of the line. */
interface Ghost {
  line: Float64Array;
  taps: Float64Array;
  first: number;
  at: number;
  fade: number;
  frames: number;
}

/**
 * One string as an extended Karplus-Strong loop: a delay line, read through `loop-kernel`, fed by `Exciter`. Monophonic: a
 * fresh touch stops what rings. Everything is laid out when it is made; `add` and `touch` allocate nothing.
 */
export class StringLoop {
  readonly #sampleRate: number;
  readonly #voice: StringVoice;
  readonly #exciter: Exciter;
  #line: Float64Array;
  #taps: Float64Array;
  readonly #ghost: Ghost;
  #at = 0;
  #first = 1;
  #delay = 0;
  #loss: LossTaps = { gain: 0, side: 0 };
  #glideFrom = 0;
  #glideTo = 0;
  #glideAt = 0;
  #glideFrames = 0;
  /** Frames since the string last moved audibly; at the length of its line it is at rest. */
  #stillFor = Infinity;
  #grain = 0;

  constructor(sampleRate: number, voice: StringVoice, noise: Float64Array) {
    this.#sampleRate = sampleRate;
    this.#voice = voice;
    this.#exciter = new Exciter(sampleRate, noise);
    const longest = sampleRate / frequencyHz(PITCH_MIN) + kernelLength(sampleRate);
    const length = 2 ** Math.ceil(Math.log2(longest));
    const size = kernelLength(sampleRate);
    this.#line = new Float64Array(length);
    this.#taps = new Float64Array(size);
    this.#ghost = {
      line: new Float64Array(length),
      taps: new Float64Array(size),
      first: 1,
      at: 0,
      fade: 0,
      frames: 0,
    };
  }

  /**
   * Touches the string from the next frame on. `pitch` is what it comes to, after `glideSec` from `fromPitch`
   * (from where it is when `null`); `strength` from 0 to 1. Out-of-range pitches are kept inside C1 to C8.
   */
  touch(touch: Touch, pitch: number, strength: number, fromPitch: number | null, glideSec: number): void {
    if (touch === 'damp') {
      this.#leaveGhost(DAMP_SEC);
      this.#stillFor = Infinity;
      this.#exciter.stop();
      return;
    }
    const isFresh = touch === 'nail' || touch === 'thumb';
    if (isFresh) this.#leaveGhost(STOP_SEC);
    const delay = this.#delayOf(pitch);
    const wasSilent = this.#stillFor >= this.#line.length;
    const start = fromPitch !== null ? this.#delayOf(fromPitch) : wasSilent || isFresh ? delay : this.#delay;
    this.#tune(pitch, start, delay, glideSec);
    this.#grain += 977;
    this.#exciter.begin(EXCITATIONS[touch], strength, delay, this.#grain);
    this.#stillFor = 0;
  }

  /** At rest at once. */
  clear(): void {
    this.#exciter.stop();
    this.#line.fill(0);
    this.#ghost.fade = this.#ghost.frames;
    this.#stillFor = Infinity;
  }

  /** Adds the string's next samples to `output[from]` up to `output[to - 1]`. */
  add(output: Float32Array, from: number, to: number): void {
    if (this.#ghost.fade < this.#ghost.frames) this.#addGhost(output, from, to);
    if (this.#stillFor >= this.#line.length) return;
    let loudest = 0;
    for (let index = from; index < to; index++) {
      if (this.#glideAt < this.#glideFrames) this.#glide();
      let sample = readLine(this.#line, this.#taps, this.#at - this.#first);
      if (this.#exciter.isBusy) sample += this.#exciter.next();
      this.#line[this.#at] = sample;
      this.#at = (this.#at + 1) & (this.#line.length - 1);
      output[index]! += sample;
      loudest = Math.max(loudest, Math.abs(sample));
    }
    this.#stillFor = loudest > STILL || this.#exciter.isBusy ? 0 : this.#stillFor + to - from;
    if (this.#stillFor >= this.#line.length) this.clear();
  }

  #delayOf(pitch: number): number {
    return this.#sampleRate / frequencyHz(Math.min(PITCH_MAX, Math.max(PITCH_MIN, pitch)));
  }

  #tune(pitch: number, start: number, delay: number, glideSec: number): void {
    const { openPitch, fundamentalSec, brightSec } = this.#voice;
    const shorter = Math.sqrt(frequencyHz(openPitch) / frequencyHz(Math.max(openPitch, pitch)));
    const loss = { fundamentalSec: fundamentalSec * shorter, brightSec: brightSec * shorter };
    this.#loss = lossTaps(this.#sampleRate / delay, loss, this.#sampleRate);
    this.#glideFrom = start;
    this.#glideTo = delay;
    this.#glideAt = 0;
    this.#glideFrames = start === delay ? 0 : Math.max(1, Math.round(glideSec * this.#sampleRate));
    this.#setDelay(start);
  }

  #glide(): void {
    this.#glideAt += 1;
    const share = this.#glideAt / this.#glideFrames;
    const eased = share * share * (3 - 2 * share);
    this.#setDelay(this.#glideFrom * (this.#glideTo / this.#glideFrom) ** eased);
  }

  #setDelay(delay: number): void {
    this.#delay = delay;
    this.#first = writeKernel(this.#taps, delay, this.#loss);
  }

  /** Hands the line over to the ghost and takes an empty one. What a ghost still held is given up. */
  #leaveGhost(seconds: number): void {
    if (this.#stillFor >= this.#line.length) return;
    const ghost = this.#ghost;
    const { line, taps } = ghost;
    ghost.line = this.#line;
    ghost.taps = this.#taps;
    ghost.first = this.#first;
    ghost.at = this.#at;
    ghost.fade = 0;
    ghost.frames = Math.round(seconds * this.#sampleRate);
    this.#line = line;
    this.#taps = taps;
    this.#line.fill(0);
  }

  #addGhost(output: Float32Array, from: number, to: number): void {
    const ghost = this.#ghost;
    for (let index = from; index < to && ghost.fade < ghost.frames; index++) {
      const sample = readLine(ghost.line, ghost.taps, ghost.at - ghost.first);
      ghost.line[ghost.at] = sample;
      ghost.at = (ghost.at + 1) & (ghost.line.length - 1);
      ghost.fade += 1;
      output[index]! += sample * (0.5 + 0.5 * Math.cos((Math.PI * ghost.fade) / ghost.frames));
    }
  }
}

function readLine(line: Float64Array, taps: Float64Array, newest: number): number {
  const mask = line.length - 1;
  let sum = 0;
  for (let k = 0; k < taps.length; k++) sum += taps[k]! * line[(newest - k) & mask]!;
  return sum;
}
