import { CLICK_PEAK, clickSound } from './click-sound';
import { noise } from './synthesis';

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

/** The words that count the beats, "one" to "eight", each with a click on its first sample; synthesised, no recordings. */
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

/** Samples for which the mouth stands still. */
const STILL = 32;

/** Source and filter: pulses of the voice through the formants, one after the other, and noise through a band. */
function spoken(phones: readonly Phone[], sampleRate: number): Float64Array {
  const seconds = phones.reduce((sum, { sec }) => sum + sec, 0) + END_SEC;
  const word = new Float64Array(Math.round(seconds * sampleRate));
  const [first, second, third] = FORMANT_WIDTHS_HZ.map((width) => new MovingResonance(sampleRate, width)) as [
    MovingResonance,
    MovingResonance,
    MovingResonance,
  ];
  const band = new MovingResonance(sampleRate, 1800);
  const random = noise();
  let phase = 0;
  for (let start = 0; start < word.length; start += STILL) {
    const timeSec = start / sampleRate;
    const { voice, breath, formants, hissHz } = phoneAt(phones, timeSec);
    first.tune(formants[0]);
    second.tune(formants[1]);
    third.tune(formants[2]);
    band.tune(hissHz);
    const step = (VOICE_HZ.from + ((VOICE_HZ.to - VOICE_HZ.from) * timeSec) / seconds) / sampleRate;
    for (let index = start; index < Math.min(word.length, start + STILL); index++) {
      phase = (phase + step) % 1;
      const voiced = third.next(second.next(first.next(voice * (1 - 2 * phase))));
      word[index] = voiced + 0.5 * band.next(breath * random());
    }
  }
  const fade = END_SEC * sampleRate;
  return word.map((sample, index) => sample * Math.min(1, (word.length - 1 - index) / fade));
}

/** What the mouth does at a time: the phone that sounds, blended into the one after it. */
function phoneAt(phones: readonly Phone[], timeSec: number): Phone {
  let index = 0;
  let end = phones[0]!.sec;
  while (timeSec >= end && index < phones.length - 1) end += phones[++index]!.sec;
  const phone = phones[index]!;
  const next = phones[index + 1] ?? { ...phone, voice: 0, breath: 0 };
  // vowels glide into vowels all the way, consonants break off
  const glideSec = phone.voice > 0 && next.voice > 0 ? phone.sec : SMOOTH_SEC;
  const part = Math.min(1, Math.max(0, 1 - (end - timeSec) / glideSec));
  const between = (from: number, to: number) => from + (to - from) * part;
  return {
    sec: phone.sec,
    voice: between(phone.voice, next.voice),
    breath: between(phone.breath, next.breath),
    hissHz: between(phone.hissHz, next.hissHz),
    formants: [
      between(phone.formants[0], next.formants[0]),
      between(phone.formants[1], next.formants[1]),
      between(phone.formants[2], next.formants[2]),
    ],
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
    this.#y2 = this.#y1;
    this.#y1 = output;
    return output;
  }
}
