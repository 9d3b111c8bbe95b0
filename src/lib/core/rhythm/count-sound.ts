import { CLICK_PEAK, clickSound } from './click-sound';
import { noise } from './synthesis';

/** How many beats of a measure have a word; further ones are clicks. */
export const COUNTED_MAX = 8;

/** One sound of a word; its values are reached where it begins and change evenly into those of the next. */
interface Phone {
  sec: number;
  /** Loudness of the voice and of the breath, 0 to 1. */
  voice: number;
  breath: number;
  /** Resonances of the mouth in Hz, for the voice. */
  formants: readonly [number, number, number];
  /** Centre of the breath's noise. */
  hissHz: number;
}

const vowel = (sec: number, ...formants: [number, number, number]): Phone => ({
  ...{ sec, formants, voice: 1, breath: 0, hissHz: 3000 },
});
const hum = (sec: number, ...formants: [number, number, number]): Phone => ({
  ...vowel(sec, ...formants),
  voice: 0.4,
});
const hiss = (sec: number, hissHz: number, breath: number): Phone => ({
  ...{ sec, hissHz, breath, voice: 0, formants: [450, 1500, 2500] },
});
const gap = (sec: number): Phone => hiss(sec, 3000, 0);

/**
 * "One" to "eight". Formants of the vowels are near those of Peterson & Barney 1952, JASA 24:175-184 (men's means, from
 * memory); the consonants are cut short, so that the vowel comes soon after the beat.
 */
const WORDS: readonly (readonly Phone[])[] = [
  [hum(0.04, 300, 700, 2300), vowel(0.11, 640, 1190, 2390), hum(0.07, 280, 1500, 2500)],
  [hiss(0.03, 4500, 0.8), vowel(0.05, 320, 1400, 2300), vowel(0.14, 300, 870, 2240)],
  [hiss(0.035, 6500, 0.25), hum(0.04, 350, 1060, 1500), vowel(0.15, 270, 2290, 3010)],
  [hiss(0.035, 5000, 0.25), vowel(0.11, 570, 840, 2410), vowel(0.07, 450, 1250, 1650)],
  [
    ...[hiss(0.035, 5000, 0.25), vowel(0.09, 730, 1090, 2440), vowel(0.06, 390, 1990, 2550)],
    hum(0.05, 280, 1100, 2200),
  ],
  [
    hiss(0.05, 6500, 0.7),
    vowel(0.07, 390, 1990, 2550),
    gap(0.03),
    hiss(0.015, 2300, 0.6),
    hiss(0.06, 6500, 0.7),
  ],
  [
    ...[hiss(0.05, 6500, 0.7), vowel(0.07, 530, 1840, 2480), hum(0.03, 280, 1100, 2200)],
    ...[vowel(0.05, 500, 1400, 2400), hum(0.05, 280, 1500, 2500)],
  ],
  [vowel(0.07, 530, 1840, 2480), vowel(0.08, 350, 2150, 2700), gap(0.03), hiss(0.03, 4500, 0.7)],
];

const SMOOTH_SEC = 0.012;
const END_SEC = 0.02;
const FORMANT_WIDTHS_HZ = [80, 110, 160] as const;
const VOICE_HZ = { from: 150, to: 115 };
/** The click that marks the beat itself within a word. */
const TICK_LEVEL = 0.5;

/** The words that count the beats, from "one", each with a click on its first sample; synthesised, no recordings. */
export function countSounds(sampleRate: number): Float32Array[] {
  const tick = clickSound('wood', 'beat', sampleRate);
  return WORDS.map((phones) => {
    const word = spoken(phones, sampleRate);
    tick.forEach((sample, index) => {
      word[index]! += sample * TICK_LEVEL;
    });
    const peak = word.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
    return Float32Array.from(word, (sample) => (sample * CLICK_PEAK) / peak);
  });
}

/** Source and filter: pulses of the voice through the formants, one after the other, and noise through a band. */
function spoken(phones: readonly Phone[], sampleRate: number): Float64Array {
  const seconds = phones.reduce((sum, { sec }) => sum + sec, 0) + END_SEC;
  const word = new Float64Array(Math.round(seconds * sampleRate));
  const track = phoneTrack(phones, seconds);
  const formants = FORMANT_WIDTHS_HZ.map((width) => new MovingResonance(sampleRate, width));
  const breath = new MovingResonance(sampleRate, 1800);
  const random = noise();
  let phase = 0;
  for (let index = 0; index < word.length; index++) {
    const timeSec = index / sampleRate;
    const now = track(timeSec);
    if (index % 16 === 0) {
      formants.forEach((formant, which) => formant.tune(now.formants[which]!));
      breath.tune(now.hissHz);
    }
    phase += (VOICE_HZ.from + ((VOICE_HZ.to - VOICE_HZ.from) * timeSec) / seconds) / sampleRate;
    const source = now.voice * (1 - 2 * (phase % 1));
    const voice = formants.reduce((wave, formant) => formant.next(wave), source);
    const fade = Math.min(1, (word.length - 1 - index) / (END_SEC * sampleRate));
    word[index] = (voice + 0.5 * breath.next(now.breath * random())) * fade;
  }
  return word;
}

/** The phone that sounds at a time, blended with the one after it over the last few milliseconds. */
function phoneTrack(phones: readonly Phone[], seconds: number): (timeSec: number) => Phone {
  const starts: number[] = [];
  phones.reduce((start, { sec }) => {
    starts.push(start);
    return start + sec;
  }, 0);
  return (timeSec) => {
    const index = Math.max(
      0,
      starts.findLastIndex((start) => start <= timeSec),
    );
    const phone = phones[index]!;
    const next = phones[index + 1] ?? { ...phone, voice: 0, breath: 0 };
    const end = Math.min(seconds, starts[index]! + phone.sec);
    // vowels glide into vowels all the way, consonants break off
    const glideSec = phone.voice > 0 && next.voice > 0 ? phone.sec : SMOOTH_SEC;
    const part = Math.min(1, Math.max(0, 1 - (end - timeSec) / glideSec));
    const between = (from: number, to: number) => from + (to - from) * part;
    return {
      sec: 0,
      voice: between(phone.voice, next.voice),
      breath: between(phone.breath, next.breath),
      hissHz: between(phone.hissHz, next.hissHz),
      formants: [0, 1, 2].map((which) =>
        between(phone.formants[which]!, next.formants[which]!),
      ) as unknown as Phone['formants'],
    };
  };
}

/** A resonance whose frequency moves while it sounds; gain 1 at 0 Hz (Klatt 1980, JASA 67:971-995, from memory). */
class MovingResonance {
  readonly #sampleRate: number;
  readonly #radius: number;
  #turn = 0;
  #y1 = 0;
  #y2 = 0;

  constructor(sampleRate: number, widthHz: number) {
    this.#sampleRate = sampleRate;
    this.#radius = Math.exp((-Math.PI * widthHz) / sampleRate);
  }

  tune(hz: number): void {
    const usable = Math.min(hz, 0.45 * this.#sampleRate);
    this.#turn = 2 * this.#radius * Math.cos((2 * Math.PI * usable) / this.#sampleRate);
  }

  next(input: number): number {
    const square = this.#radius * this.#radius;
    const output = (1 - this.#turn + square) * input + this.#turn * this.#y1 - square * this.#y2;
    [this.#y2, this.#y1] = [this.#y1, output];
    return output;
  }
}
