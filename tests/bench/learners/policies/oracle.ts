import { DAY_MS } from '$lib/core/time/moment';
import type { Learner } from '../contract';
import type { PlayedTune, Policy, PolicyFactory, Practice, Stretch } from '../practice';
import { wholeOf } from './by-ear';

/** Stretches that are tried, in measures, besides the whole. */
const SIZES = [1, 2, 3, 4, 6, 8];
const TURN_SEC = 120;
const BETWEEN_PASSES_SEC = 3;
const CHANGE_SEC = 15;
const SLOWEST = 20;
/** A tempo that is hardly faster than the last one tried is not tried. */
const APART = 1.04;
/** Stretches tried after the first turn of a sitting: those that promised most when last tried. */
const PROMISING = 6;
/** How much more a link counts the farther it is from the goal: steep, for the weakest ones hold up the whole. */
const STEEPNESS = 18;
/** A tune is worked on until it is so far over its goal that it will not fall below it at once. */
const ENOUGH = 1.03;

interface Turn {
  stretch: Stretch;
  tempo: number;
  passes: number;
}

/**
 * Sees how every link of the learner stands and, on copies, what practice makes of it. Each turn of two minutes it tries
 * stretches of the tune at tempos from what the weakest link bears to what the middle one does, and plays what takes
 * most a second off the distance of the links to the goal, as they stand at once and after the night. The copies
 * share the learner's luck, so it knows that as well.
 *
 * It does not see past one turn and one night, does not weigh one tune against another (the one nearest its goal first,
 * until it is done), and tries all stretches only at the start of a sitting or a tune, afterwards those that promised most.
 */
export const oracle: PolicyFactory = () => new Oracle();

class Oracle implements Policy {
  readonly #stretches = new Map<string, Stretch[]>();
  readonly #promise = new Map<Stretch, number>();
  #last: Stretch | null = null;
  #making: PlayedTune | null = null;

  sit(practice: Practice): void {
    this.#promise.clear();
    while (practice.minutesLeft > 0) {
      const tune = this.#tune(practice);
      const { stretch, tempo, passes } = this.#best(practice, tune);
      this.#last = stretch;
      for (let pass = 0; pass < passes && practice.minutesLeft > 0; pass++) practice.play(stretch, tempo);
    }
  }

  /** The tune in the making until it is done, then the one nearest its goal. */
  #tune(practice: Practice): PlayedTune {
    const share = (tune: PlayedTune) => practice.ready(tune) / tune.goal;
    if (this.#making && share(this.#making) < ENOUGH) return this.#making;
    const shares = new Map(practice.tunes.map((tune) => [tune, share(tune)]));
    const shareOf = (tune: PlayedTune) => shares.get(tune) ?? 0;
    const open = practice.tunes.filter((tune) => shareOf(tune) < 1);
    const byShare = [...(open.length > 0 ? open : practice.tunes)].sort((a, b) => shareOf(b) - shareOf(a));
    this.#making = byShare[open.length > 0 ? 0 : byShare.length - 1]!;
    return this.#making;
  }

  #best(practice: Practice, tune: PlayedTune): Turn {
    let best = { stretch: wholeOf(tune), tempo: practice.ready(tune), passes: 1 };
    let most = -Infinity;
    for (const stretch of this.#promising(tune)) {
      let ofStretch = -Infinity;
      const idle = toGo(fork(practice.learner), stretch, practice.now);
      for (const tempo of temposFor(practice, stretch)) {
        const turn = { stretch, tempo, passes: passesIn(stretch, tempo) };
        const learner = fork(practice.learner);
        const played = tryOut(learner, turn, practice.now);
        const seconds = played + (stretch === this.#last ? 0 : CHANGE_SEC);
        const gain = (idle - toGo(learner, stretch, practice.now + 1000 * seconds)) / seconds;
        ofStretch = Math.max(ofStretch, gain);
        if (gain > most) [most, best] = [gain, turn];
      }
      this.#promise.set(stretch, ofStretch);
    }
    return best;
  }

  /** All at first, then the few that promised most when last tried. */
  #promising(tune: PlayedTune): Stretch[] {
    let all = this.#stretches.get(tune.id);
    if (!all) this.#stretches.set(tune.id, (all = stretchesOf(tune)));
    const promise = (stretch: Stretch) => this.#promise.get(stretch) ?? Infinity;
    return all.some((stretch) => promise(stretch) === Infinity)
      ? all
      : all.sort((a, b) => promise(b) - promise(a)).slice(0, PROMISING);
  }
}

/** From the weakest link's tempo to the middle of all. */
function temposFor({ learner, now }: Practice, stretch: Stretch): number[] {
  const abilities = abilitiesOf(learner, stretch, now);
  const low = Math.min(...abilities);
  const middle = Math.exp(abilities.reduce((sum, each) => sum + Math.log(each), 0) / abilities.length);
  const tempos = [0.95 * low, 1.1 * low, 1.1 * Math.sqrt(low * middle), 1.1 * middle];
  return tempos
    .filter((tempo, index) => index === 0 || tempo > APART * tempos[index - 1]!)
    .map((tempo) => Math.max(SLOWEST, tempo));
}

/** How far the links of a stretch are from the goal, at once and the next day. The night changes the learner. */
function toGo(learner: Learner, stretch: Stretch, now: number): number {
  const { goal } = stretch.tune;
  const lack = (at: number) =>
    abilitiesOf(learner, stretch, at).reduce((sum, each) => sum + (goal / each) ** STEEPNESS, 0);
  const today = lack(now);
  learner.night(now);
  return today + lack(now + DAY_MS);
}

function stretchesOf(tune: PlayedTune): Stretch[] {
  const { length } = tune.figures;
  const seen = new Set<string>();
  return [...SIZES.filter((size) => size < length), length].flatMap((count) =>
    Array.from({ length: length - count + 1 }, (_, from) => ({ tune, from, count })).filter(({ from }) => {
      const key = tune.figures.slice(from, from + count).join();
      return seen.size < seen.add(key).size;
    }),
  );
}

function tryOut(learner: Learner, { stretch, tempo, passes }: Turn, now: number): number {
  const { tune, from, count } = stretch;
  const each = passSec(stretch, tempo);
  const figures = tune.figures.slice(from, from + count);
  for (let pass = 0; pass < passes; pass++) {
    const at = now + 1000 * pass * each;
    learner.play({ tuneId: tune.id, figures, tempo, at, fromMemory: true });
  }
  return passes * each;
}

function passesIn(stretch: Stretch, tempo: number): number {
  return Math.max(1, Math.round(TURN_SEC / passSec(stretch, tempo)));
}

function passSec({ tune, count }: Stretch, tempo: number): number {
  return (60 * count * tune.beats) / tempo + BETWEEN_PASSES_SEC;
}

function abilitiesOf(learner: Learner, { tune, from, count }: Stretch, at: number): readonly number[] {
  return learner.abilities?.(tune.id, at, from, count) ?? [learner.ready(tune.id, at)];
}

function fork(learner: Learner): Learner {
  if (!learner.fork) throw new Error('The oracle needs a learner that can be forked');
  return learner.fork();
}
