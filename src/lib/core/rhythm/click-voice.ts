import { clickSounds, type ClickSound } from './click-sound';
import type { Accent } from './patterns';
import { FADE_SEC, type Voice } from './voice';

export interface ClickCue {
  accent: Accent;
  /** From 0 to 1. */
  volume: number;
  /** The number that is spoken, from 1; `null`: the click alone. */
  spoken: number | null;
}

interface Sounding {
  samples: Float32Array;
  /** Next sample to play; negative: as many frames until it starts. */
  position: number;
  gain: number;
  /** How much `gain` falls with each frame: 0 unless it is being silenced. */
  fall: number;
}

/** Clicks, made before the first one is due, and spoken numbers, which are given. A number without a word is a click. */
export class ClickVoice implements Voice<ClickCue> {
  readonly #sampleRate: number;
  readonly #sounds: Record<ClickSound, Record<Accent, Float32Array>>;
  #words: readonly Float32Array[] = [];
  #sound: ClickSound = 'wood';
  #struck: { cue: ClickCue; frame: number }[] = [];
  #sounding: Sounding[] = [];

  constructor(sampleRate: number) {
    this.#sampleRate = sampleRate;
    this.#sounds = clickSounds(sampleRate);
  }

  /** From the next stroke on. */
  setSound(sound: ClickSound): void {
    this.#sound = sound;
  }

  /** The words of the count, from "one" (see `countSounds`). */
  setWords(words: readonly Float32Array[]): void {
    this.#words = words;
  }

  strike(cue: ClickCue, frame: number): void {
    this.#struck.push({ cue, frame });
  }

  render(output: Float32Array, frame: number): void {
    for (const { cue, frame: at } of this.#struck) {
      const { accent, volume, spoken } = cue;
      const word = spoken === null ? undefined : this.#words[spoken - 1];
      const samples = word ?? this.#sounds[this.#sound][accent];
      this.#sounding.push({ samples, position: frame - at, gain: volume, fall: 0 });
    }
    this.#struck = [];
    for (const sounding of this.#sounding) addSound(output, sounding);
    this.#sounding = this.#sounding.filter(
      ({ samples, position, gain }) => position < samples.length && gain > 0,
    );
  }

  silence(): void {
    this.#struck = [];
    for (const sounding of this.#sounding) sounding.fall = sounding.gain / (FADE_SEC * this.#sampleRate);
  }
}

function addSound(output: Float32Array, sounding: Sounding): void {
  const { samples, position } = sounding;
  const last = Math.min(output.length, samples.length - position);
  for (let index = Math.max(0, -position); index < last && sounding.gain > 0; index++) {
    output[index]! += samples[position + index]! * sounding.gain;
    sounding.gain -= sounding.fall;
  }
  sounding.position += output.length;
}
