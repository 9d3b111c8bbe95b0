import type { Outcome } from '../src/lib/core/practice/records';
import { passageKey, type Passage, type PassageKey } from '../src/lib/core/tune/passage';
import { passageStretches } from '../src/lib/core/tune/places';
import type { Tune } from '../src/lib/core/tune/tune';

/** Numbers from 0 (included) to 1 (not included). */
export type Draw = () => number;

/** Mulberry32: 32 bits of state, the same draws on every machine [from memory; any small generator would do]. */
export function seededDraw(seed: number): Draw {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** What the hands can do with one figure or seam. Tempos are in beats per minute. */
interface Hold {
  /** Comes out clean 17 times in 20 here. */
  tempo: number;
  /** Where practice would end up (Heathcote, Brown & Mewhort 2000: exponential approach to a plateau). */
  plateau: number;
  /** Share of the way to the plateau that a clean pass gains. */
  rate: number;
  /** Gained today; a part of it comes again overnight (Walker 2002; Simmons 2012). */
  gainedToday: number;
  day: number;
}

const OVERNIGHT = 0.35;
/** Of the way back towards the floor, lost in a month without playing. */
const LOST_IN_A_MONTH = 0.16;
const FLOOR = 0.4;
/** Per unit of log tempo: how sharply clean turns into missed. */
const SLOPE = 9;
/** A miss that has nothing to do with the tempo. */
const LAPSE = 0.05;
/** A link in its surroundings is surer than alone, or no part of twenty links would ever come out clean. */
const IN_THE_FLOW = 2;
const LOGIT_17_IN_20 = Math.log(0.85 / 0.15);

/**
 * A learner that is nobody: each figure and seam has a tempo of its own that practice raises, nights settle and weeks
 * away lower. All chance comes from `draw`.
 */
export class MadeUpLearner {
  readonly #holds = new Map<string, Hold>();
  readonly #draw: Draw;
  readonly #headStart: (tune: Tune, key: PassageKey) => number;

  /** `headStart`: of a figure or seam, the share of the goal that earlier playing has already brought. */
  constructor(draw: Draw, headStart: (tune: Tune, key: PassageKey) => number) {
    this.#draw = draw;
    this.#headStart = headStart;
  }

  /** Plays a passage once. `missAt`: the measure where it went wrong, in playing order. */
  play(
    tune: Tune,
    passage: Passage,
    tempo: number,
    day: number,
  ): { outcome: Outcome; missAt: number | null } {
    const links = this.#linksOf(tune, passage);
    for (const { key } of links) this.#nightsUntil(key, tune, day);
    for (const { key, measure } of links) {
      const hold = this.#hold(key, tune, day);
      const over = Math.log(tempo / hold.tempo);
      const clean = 1 / (1 + Math.exp(SLOPE * over - LOGIT_17_IN_20 - (links.length > 1 ? IN_THE_FLOW : 0)));
      const slips = links.length === 1 && this.#draw() < LAPSE;
      if (!slips && this.#draw() < clean) {
        this.#gain(hold, tempo, 1);
        continue;
      }
      this.#gain(hold, tempo, 0.3);
      const outcome = this.#draw() < 0.12 + Math.max(0, over) ? 'broke down' : 'stumbled';
      return { outcome, missAt: measure };
    }
    return { outcome: 'clean', missAt: null };
  }

  #linksOf(tune: Tune, passage: Passage): { key: PassageKey; measure: number }[] {
    if (passage.kind === 'figure' || passage.kind === 'seam')
      return [{ key: passageKey(passage), measure: 0 }];
    const stretches = passageStretches(tune, passage);
    return stretches.flatMap(({ figure }, measure) => {
      const before = stretches[measure - 1]?.figure;
      const own = { key: passageKey({ kind: 'figure', tuneId: tune.id, figureId: figure.id }), measure };
      if (!before) return [own];
      const seam = { fromFigureId: before.id, toFigureId: figure.id };
      return [{ key: passageKey({ kind: 'seam', tuneId: tune.id, ...seam }), measure }, own];
    });
  }

  #hold(key: PassageKey, tune: Tune, day: number): Hold {
    const known = this.#holds.get(key);
    if (known) return known;
    const isSeam = key.startsWith('seam');
    const [low, spread] = isSeam ? [0.6, 0.2] : [0.5, 0.18];
    const hold = {
      tempo: tune.goalTempo * (low + spread * this.#draw() + this.#headStart(tune, key)),
      plateau: tune.goalTempo * (1.02 + 0.22 * this.#draw()),
      rate: 0.05 + 0.06 * this.#draw(),
      ...{ gainedToday: 0, day },
    };
    this.#holds.set(key, hold);
    return hold;
  }

  #gain(hold: Hold, tempo: number, share: number): void {
    // a pass far below what the hands can do teaches little
    const useful = Math.min(1, Math.max(0.15, 1 - 2.5 * (1 - tempo / hold.tempo)));
    const gain = Math.max(0, hold.plateau - hold.tempo) * hold.rate * share * useful;
    hold.tempo += gain;
    hold.gainedToday += gain;
  }

  #nightsUntil(key: PassageKey, tune: Tune, day: number): void {
    const hold = this.#hold(key, tune, day);
    const nights = day - hold.day;
    if (nights <= 0) return;
    hold.tempo = Math.min(hold.plateau, hold.tempo + OVERNIGHT * hold.gainedToday);
    const floor = FLOOR * tune.goalTempo;
    hold.tempo -= Math.max(0, hold.tempo - floor) * LOST_IN_A_MONTH * (1 - Math.exp(-(nights - 1) / 30));
    hold.gainedToday = 0;
    hold.day = day;
  }
}
