import type { Excitation } from './touch';

/** The pulse of this length has height 1; a longer one is as much lower, so that each gives the string the same push. */
const UNIT_PULSE_SEC = 0.0003;
/** Grain of nail and skin after the pulse. */
const NOISE_SEC = 0.003;
/** In which the slowest dynamic-level filter forgets its last input. */
const TAIL_SEC = 0.003;

/**
 * One touch as the samples that it feeds into a string: a half-sine pulse and a burst of noise, less the same again
 * after the time that the wave takes to the near end and back (the pick-position comb), then through the
 * dynamic-level filter: the extensions of Jaffe & Smith (1983). Allocates nothing while it runs.
 */
export class Exciter {
  readonly #sampleRate: number;
  /** A power of two long. */
  readonly #noise: Float64Array;
  #at = 0;
  #end = 0;
  #pulse = 1;
  #height = 0;
  #noiseLength = 1;
  #noiseFrom = 0;
  #noiseShare = 0;
  #comb = 1;
  #strength = 0;
  #smoothing = 0;
  #last = 0;

  constructor(sampleRate: number, noise: Float64Array) {
    this.#sampleRate = sampleRate;
    this.#noise = noise;
  }

  get isBusy(): boolean {
    return this.#at < this.#end;
  }

  /** `strength` from 0 to 1; `period` of the string in frames; `grain`, any whole number, picks the noise. */
  begin(excitation: Excitation, strength: number, period: number, grain: number): void {
    const { place, pulseSec, noise, brightHz, dullHz } = excitation;
    const rate = this.#sampleRate;
    this.#pulse = Math.max(2, Math.round(pulseSec * rate));
    this.#height = UNIT_PULSE_SEC / pulseSec;
    this.#noiseLength = Math.round(NOISE_SEC * rate);
    this.#noiseFrom = grain;
    this.#noiseShare = noise;
    this.#comb = Math.max(1, Math.round(place * period));
    this.#strength = strength;
    const edgeHz = dullHz * (brightHz / dullHz) ** Math.min(1, Math.max(0, strength));
    this.#smoothing = Math.exp((-2 * Math.PI * edgeHz) / rate);
    this.#last = 0;
    this.#at = 0;
    this.#end = Math.max(this.#pulse, this.#noiseLength) + this.#comb + Math.round(TAIL_SEC * rate);
  }

  stop(): void {
    this.#end = 0;
  }

  next(): number {
    const fed = this.#strength * (this.#raw(this.#at) - this.#raw(this.#at - this.#comb));
    this.#at += 1;
    this.#last = fed + this.#smoothing * (this.#last - fed);
    return this.#last;
  }

  #raw(index: number): number {
    if (index < 0) return 0;
    const swing = index < this.#pulse ? Math.sin((Math.PI * (index + 1)) / (this.#pulse + 1)) : 0;
    const pulse = this.#height * swing;
    if (index >= this.#noiseLength) return pulse;
    const grain = this.#noise[(this.#noiseFrom + index) & (this.#noise.length - 1)]!;
    return pulse + this.#noiseShare * grain * (1 - index / this.#noiseLength);
  }
}
