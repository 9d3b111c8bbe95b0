import { DAY_MS, MINUTE_MS } from '$lib/core/time/moment';
import type { Tune } from '$lib/core/tune/tune';
import { tuningName } from '$lib/core/tune/tuning';
import type { BenchTune, Learner, PassHeard } from './contract';
import { benchTune, FIRST_DAY } from './tunes';

const BETWEEN_PASSES_SEC = 3;
const CHANGE_SEC = 15;
const RETUNE_SEC = 120;
/** A passage that has been played this often is played from memory. */
const KNOWN_AFTER = 2;
const LOOK_EVERY_MS = MINUTE_MS;

/** A stretch of a tune: `count` measures from the index `from` of its playing order. */
export interface Stretch {
  tune: PlayedTune;
  from: number;
  count: number;
}

export interface PlayedTune extends BenchTune {
  tune: Tune;
  tuning: string;
}

/** The learner's days: keeps the clock, charges for passes, changes and retunings, and asks for the hidden truth. */
export class Practice {
  readonly tunes: readonly PlayedTune[];
  readonly learner: Learner;
  /** What the learner has played in all, milliseconds. */
  spentMs = 0;
  retunes = 0;
  sittings = 0;
  /** `true` once what `isDone` asks for has come true. */
  done = false;
  readonly #minutesADay: number;
  readonly #isDone: (practice: Practice) => boolean;
  #day = 0;
  #todayMs = 0;
  #lookedAtMs = 0;
  #inHand: string | null = null;
  #last = '';
  readonly #timesPlayed = new Map<string, number>();

  constructor(
    makeLearner: (tunes: readonly BenchTune[]) => Learner,
    tunes: readonly Tune[],
    minutesADay: number,
    isDone: (practice: Practice) => boolean,
  ) {
    this.tunes = tunes.map((tune) => ({ ...benchTune(tune), tune, tuning: tuningName(tune.tuning) }));
    this.learner = makeLearner(tunes.map(benchTune));
    this.#minutesADay = minutesADay;
    this.#isDone = isDone;
  }

  /** Epoch milliseconds. */
  get now(): number {
    return FIRST_DAY + this.#day * DAY_MS + this.#todayMs;
  }

  get day(): number {
    return this.#day;
  }

  get tuningInHand(): string | null {
    return this.#inHand;
  }

  /** Minutes left of today's sitting; never negative. */
  get minutesLeft(): number {
    return this.done ? 0 : Math.max(0, this.#minutesADay - this.#todayMs / MINUTE_MS);
  }

  /** One pass; the last one of a sitting may run over. */
  play({ tune, from, count }: Stretch, tempo: number): PassHeard {
    const key = `${tune.id} ${from} ${count}`;
    if (tune.tuning !== this.#inHand) {
      if (this.#inHand !== null) {
        this.retunes += 1;
        this.#take(RETUNE_SEC);
      }
      this.#inHand = tune.tuning;
    }
    if (key !== this.#last) this.#take(CHANGE_SEC);
    this.#last = key;
    const times = this.#timesPlayed.get(key) ?? 0;
    this.#timesPlayed.set(key, times + 1);
    const figures = tune.figures.slice(from, from + count);
    const heard = this.learner.play({
      ...{ tuneId: tune.id, figures, tempo, at: this.now, fromMemory: times >= KNOWN_AFTER },
    });
    this.#take((60 * count * tune.beats) / tempo + BETWEEN_PASSES_SEC);
    return heard;
  }

  /** Time at the banjo in which nothing is played. */
  rest(seconds: number): void {
    this.#take(seconds);
  }

  /** The night, and the next day begins. */
  sleep(): void {
    this.sittings += 1;
    this.#day += 1;
    this.#todayMs = 0;
    this.#last = '';
    this.learner.night(this.now);
  }

  ready(tune: BenchTune): number {
    return this.learner.ready(tune.id, this.now);
  }

  #take(seconds: number): void {
    this.#todayMs += 1000 * seconds;
    this.spentMs += 1000 * seconds;
    if (this.done || this.spentMs - this.#lookedAtMs < LOOK_EVERY_MS) return;
    this.#lookedAtMs = this.spentMs;
    this.done = this.#isDone(this);
  }
}

/** What a policy does with one day: plays until `minutesLeft` is 0. */
export interface Policy {
  sit(practice: Practice): void;
}

export type PolicyFactory = (practice: Practice, seed: number) => Policy;
