/** A second-order section, its coefficients divided by a0. */
interface Section {
  b0: number;
  b1: number;
  b2: number;
  a1: number;
  a2: number;
}

/**
 * What head, bridge and air make of the strings. A banjo's formant peaks at 500 to 800 Hz (Woodhouse, Politzer &
 * Mansour 2021, Acta Acustica 5:15: looked up, abstract); a second lies at 2 to 4 kHz, and 99 % of the sound between 147 and 5200
 * Hz ("Design aspects of the five string banjo": looked up, abstract). Heights and widths are ours.
 */
const FORMANTS = [
  { hz: 650, gainDb: 7, quality: 1.1 },
  { hz: 2900, gainDb: 9, quality: 1.2 },
] as const;
const LOWEST_HZ = 130;
const HIGHEST_HZ = 6500;

/** Filters stretch after stretch in place; allocates nothing while it runs. */
export class Body {
  readonly #sections: readonly Section[];
  /** Two numbers a section (transposed direct form II). */
  readonly #memory: Float64Array;

  constructor(sampleRate: number) {
    const turn = (hz: number) => (2 * Math.PI * hz) / sampleRate;
    this.#sections = [
      highPass(turn(LOWEST_HZ), Math.SQRT1_2),
      ...FORMANTS.map(({ hz, gainDb, quality }) => peak(turn(hz), gainDb, quality)),
      lowPass(turn(HIGHEST_HZ), Math.SQRT1_2),
    ];
    this.#memory = new Float64Array(2 * this.#sections.length);
  }

  /** Filters `samples[from]` up to `samples[to - 1]`, as the continuation of what came before. */
  filter(samples: Float32Array, from: number, to: number): void {
    for (let place = 0; place < this.#sections.length; place++) {
      const { b0, b1, b2, a1, a2 } = this.#sections[place]!;
      let first = this.#memory[2 * place]!;
      let second = this.#memory[2 * place + 1]!;
      for (let index = from; index < to; index++) {
        const input = samples[index]!;
        const output = b0 * input + first;
        first = b1 * input - a1 * output + second;
        second = b2 * input - a2 * output;
        samples[index] = output;
      }
      this.#memory[2 * place] = settled(first);
      this.#memory[2 * place + 1] = settled(second);
    }
  }

  clear(): void {
    this.#memory.fill(0);
  }
}

/** Numbers that no one hears but that slow a processor down (denormals) end as 0. */
function settled(value: number): number {
  return Math.abs(value) < 1e-15 ? 0 : value;
}

// The sections of the Audio EQ Cookbook (R. Bristow-Johnson; W3C Working Group Note, 2021), from memory.

function highPass(turn: number, quality: number): Section {
  const edge = 1 + Math.cos(turn);
  return section(edge / 2, -edge, edge / 2, turn, Math.sin(turn) / (2 * quality));
}

function lowPass(turn: number, quality: number): Section {
  const edge = 1 - Math.cos(turn);
  return section(edge / 2, edge, edge / 2, turn, Math.sin(turn) / (2 * quality));
}

function section(b0: number, b1: number, b2: number, turn: number, alpha: number): Section {
  const a0 = 1 + alpha;
  return { b0: b0 / a0, b1: b1 / a0, b2: b2 / a0, a1: (-2 * Math.cos(turn)) / a0, a2: (1 - alpha) / a0 };
}

function peak(turn: number, gainDb: number, quality: number): Section {
  const height = 10 ** (gainDb / 40);
  const alpha = Math.sin(turn) / (2 * quality);
  const a0 = 1 + alpha / height;
  return {
    b0: (1 + alpha * height) / a0,
    b1: (-2 * Math.cos(turn)) / a0,
    b2: (1 - alpha * height) / a0,
    a1: (-2 * Math.cos(turn)) / a0,
    a2: (1 - alpha / height) / a0,
  };
}
