import type { PlayedTune, Policy, Practice } from '../practice';
import { OwnTempos, wholeOf } from './by-ear';

/** Share of a sitting that goes to what is finished, once something is. */
const UPKEEP_SHARE = 0.25;
const TOO_LONG_DAYS = 7;

/** How a person works on the one tune in the making, until `minutesLeft` comes down to `until`. */
export type Work = (practice: Practice, tune: PlayedTune, until: number) => void;

/**
 * What sensible people do with many tunes, the same for all but the planner: one tune in the making at a time, and
 * at the start of each sitting some finished ones played through at goal, first those in the tuning in hand that have waited longest.
 * A tune is finished when three of its last four times through at the goal were clean.
 */
export class OneTuneAtATime implements Policy {
  readonly #work: Work;
  readonly #whole = new OwnTempos(1);
  readonly #atGoal = new Map<string, boolean[]>();
  readonly #lastDay = new Map<string, number>();
  readonly #finished = new Set<string>();

  constructor(work: Work) {
    this.#work = work;
  }

  sit(practice: Practice): void {
    const all = practice.minutesLeft;
    const making = practice.tunes.find(({ id }) => !this.#finished.has(id));
    const upkeepUntil = making ? all * (1 - UPKEEP_SHARE) : 0;
    while (practice.minutesLeft > upkeepUntil) {
      const next = this.#nextToKeep(practice);
      if (!next) break;
      this.#keepUp(practice, next);
    }
    if (making) {
      this.#work(practice, making, 0.05 * all);
      this.#tryOut(practice, making);
    }
    while (practice.minutesLeft > 0) {
      this.#keepUp(practice, this.#nextToKeep(practice) ?? practice.tunes[0]!);
    }
  }

  /** One time through at the goal closes the sitting. */
  #tryOut(practice: Practice, tune: PlayedTune): void {
    if (practice.tunes.length === 1 || practice.minutesLeft <= 0) return;
    const results = this.#atGoal.get(tune.id) ?? [];
    const { outcome } = practice.play(wholeOf(tune), tune.goal);
    this.#atGoal.set(tune.id, [...results.slice(-3), outcome === 'clean']);
    this.#lastDay.set(tune.id, practice.day);
    if ((this.#atGoal.get(tune.id) ?? []).filter(Boolean).length >= 3) this.#finished.add(tune.id);
  }

  #keepUp(practice: Practice, tune: PlayedTune): void {
    this.#lastDay.set(tune.id, practice.day);
    for (let tries = 0; tries < 3 && practice.minutesLeft > 0; tries++) {
      if (this.#whole.play(practice, wholeOf(tune))) return;
    }
  }

  #nextToKeep(practice: Practice): PlayedTune | undefined {
    const waited = ({ id }: PlayedTune) => practice.day - (this.#lastDay.get(id) ?? -1);
    const finished = practice.tunes.filter(({ id }) => this.#finished.has(id));
    const byWait = finished.sort((a, b) => waited(b) - waited(a));
    const inHand = byWait.find((tune) => tune.tuning === practice.tuningInHand && waited(tune) > 0);
    const longest = byWait[0];
    return longest && waited(longest) > TOO_LONG_DAYS ? longest : (inHand ?? longest);
  }
}
