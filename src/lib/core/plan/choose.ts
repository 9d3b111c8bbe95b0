import { candidate, LEAST_MINUTES, MOST_MINUTES, NEW_AT_ONCE, type Candidate } from './candidates';
import { passageFromKey, type Passage, type PassageKey } from '../tune/passage';
import { warmUp } from './reasons';
import type { LinkState, TuneState } from './tune-state';

/** What turning five pegs and settling the strings costs. */
export const RETUNE_MINUTES = 2;
/** A warm-up is worth its minutes from here on. */
const WARM_UP_FROM_MINUTES = 15;
/** Each further item of the same tune counts for less, so that a sitting is not all one tune. */
const SAME_TUNE = 0.85;

/** A candidate with its place in the day: how long it is given. */
export interface Chosen extends Candidate {
  given: number;
}

export interface Wishes {
  pool: readonly Candidate[];
  /** These go in before all others, as many as fit. */
  sure: readonly Candidate[];
  states: readonly TuneState[];
  /** Passages that stay out. */
  skipped: ReadonlySet<PassageKey>;
  /** Whole minutes to fill. */
  minutes: number;
  /** The tuning of the banjo now; `null`: any. */
  inHand: string | null;
  /** Stiff hands warm up however short the time. */
  stiff: boolean;
  /** What was drilled last today; `null`: nothing yet, so that the hands may need a warm-up. */
  last: PassageKey | null;
}

/** Fills the minutes, greedily by worth a minute. Given in the order in which the items are to be played. */
export function choose(wishes: Wishes): Chosen[] {
  const { pool, sure, minutes, inHand, stiff, last } = wishes;
  const first = inHand ?? tuningOfBest([...sure, ...pool]);
  const filling = new Filling(minutes, inHand);
  for (const item of sure) if (filling.fits(item)) filling.take(item);
  const warmsUp = last === null && (minutes >= WARM_UP_FROM_MINUTES || stiff);
  const opening = warmsUp ? warmUpIn(wishes, first) : null;
  if (opening && filling.fits(opening)) filling.take(opening);
  for (let best = filling.best(pool); best; best = filling.best(pool)) filling.take(best);
  filling.spread();
  return inOrder(filling.taken, first, last);
}

function tuningOfBest(pool: readonly Candidate[]): string | null {
  let best: Candidate | null = null;
  for (const item of pool) if (!best || item.worth > best.worth) best = item;
  return best?.state.tuning ?? null;
}

class Filling {
  readonly taken: Chosen[] = [];
  readonly #keys = new Set<string>();
  readonly #tunings = new Set<string>();
  readonly #ofTune = new Map<string, number>();
  readonly #all: number;
  #left: number;
  #free: boolean;

  constructor(minutes: number, inHand: string | null) {
    this.#all = minutes;
    this.#left = minutes;
    this.#free = inHand === null;
    if (inHand !== null) this.#tunings.add(inHand);
  }

  #retune({ state }: Candidate): number {
    return this.#tunings.has(state.tuning) || this.#free ? 0 : RETUNE_MINUTES;
  }

  fits(item: Candidate): boolean {
    return !this.#keys.has(item.link.key) && this.#retune(item) + item.leastMinutes <= this.#left;
  }

  take(item: Candidate): void {
    this.#left -= this.#retune(item);
    const given = Math.min(item.minutes, this.#left);
    this.#left -= given;
    this.#free = false;
    this.#tunings.add(item.state.tuning);
    this.#keys.add(item.link.key);
    const { id } = item.state.tune;
    this.#ofTune.set(id, (this.#ofTune.get(id) ?? 0) + 1);
    this.taken.push({ ...item, given });
  }

  best(pool: readonly Candidate[]): Candidate | null {
    let best: Candidate | null = null;
    let most = -Infinity;
    for (const item of pool) {
      if (!this.fits(item) || !this.#isDue(item)) continue;
      const others = this.#ofTune.get(item.state.tune.id) ?? 0;
      const worth = item.worth * SAME_TUNE ** others * this.#afterRetuning(item);
      if (worth > most) [best, most] = [item, worth];
    }
    return best;
  }

  /** A retuning takes from the item's own minutes, and weighs more the shorter the sitting. */
  #afterRetuning(item: Candidate): number {
    const retune = this.#retune(item);
    return (item.minutes / (item.minutes + retune)) * (1 - retune / this.#all);
  }

  /** New figures come from one tune a plan, a few at once: a second new tune waits for another day (Allen 2013). */
  #isDue(item: Candidate): boolean {
    if (!isNew(item)) return true;
    const begun = this.taken.filter(isNew);
    return begun.length < NEW_AT_ONCE && begun.every(({ state }) => state.tune.id === item.state.tune.id);
  }

  /** Minutes left over lengthen the turns, the most worthwhile first. */
  spread(): void {
    const longer = this.taken.filter(({ reasonKind }) => reasonKind !== 'warm-up');
    for (let round = LEAST_MINUTES; round < MOST_MINUTES; round++) {
      for (const item of longer) {
        if (this.#left < 1) return;
        if (item.given > round || item.given >= MOST_MINUTES) continue;
        item.given++;
        this.#left--;
      }
    }
  }
}

export function isNew({ reasonKind }: Pick<Candidate, 'reasonKind'>): boolean {
  return reasonKind === 'new figure' || reasonKind === 'next layer';
}

/** The longest settled passage in a tuning that has not faded, as an easy beginning. */
function warmUpIn({ states, skipped }: Wishes, tuning: string | null): Candidate | null {
  let best: { state: TuneState; item: LinkState } | null = null;
  for (const state of states) {
    if (state.tuning !== tuning) continue;
    for (const item of [...state.figures, ...state.parts, state.whole]) {
      const { link, standing, rust } = item;
      if (!standing.isSettled || rust === 'likely faded' || skipped.has(link.key)) continue;
      if (!best || isEasier(item, best.item)) best = { state, item };
    }
  }
  if (!best) return null;
  const { state, item } = best;
  const easy = candidate(state, item, 'warm-up', 0, () => warmUp(item));
  if (easy.leastMinutes > MOST_MINUTES) return null;
  return {
    ...easy,
    minutes: easy.leastMinutes,
    towardTempo: Math.max(easy.startTempo, Math.min(easy.towardTempo, Math.round(item.tempo))),
  };
}

/** The longest passage that a turn holds brings most; then the one that has waited longest. */
function isEasier(a: LinkState, b: LinkState): boolean {
  const byLength = a.link.beats - b.link.beats;
  if (byLength !== 0) return byLength > 0;
  const byDays = (a.daysAway ?? 0) - (b.daysAway ?? 0);
  return byDays !== 0 ? byDays > 0 : a.link.key < b.link.key;
}

function inOrder(taken: readonly Chosen[], first: string | null, last: PassageKey | null): Chosen[] {
  const groups = new Map<string, Chosen[]>();
  for (const item of taken) {
    const group = groups.get(item.state.tuning) ?? [];
    groups.set(item.state.tuning, [...group, item]);
  }
  // a Map keeps the order of choosing, so the tuning of the most worthwhile item comes next after the one in hand
  const tunings = [...groups.keys()].sort((a, b) => Number(b === first) - Number(a === first));
  // a hard place was drilled just now, so what it belongs to comes next
  const drilled = last === null ? null : passageFromKey(last);
  const longFirst = drilled !== null && !isLong(drilled);
  return tunings.flatMap((tuning) =>
    groupInOrder(groups.get(tuning) ?? [], longFirst && tuning === first, last !== null),
  );
}

/**
 * Inside one tuning: warm-up, then hard places and what they belong to by turns, tunes taking turns as well, and
 * the new ones in one block, after the first of those while the hands are cold (Abushanab & Bishara 2013; Carter & Grahn 2016).
 */
function groupInOrder(group: readonly Chosen[], longFirst: boolean, isWarm: boolean): Chosen[] {
  const opening = group.filter(({ reasonKind }) => reasonKind === 'warm-up');
  const fresh = group.filter(isNew);
  const known = group.filter((item) => !isNew(item) && item.reasonKind !== 'warm-up');
  const short = takeTurns(known.filter(({ link }) => !isLong(link.passage)));
  const long = takeTurns(known.filter(({ link }) => isLong(link.passage)));
  const [head, ...rest] = longFirst ? byTurns(long, short) : byTurns(short, long);
  if (isWarm) return [...opening, ...fresh, ...(head ? [head] : []), ...rest];
  return [...opening, ...(head ? [head] : []), ...fresh, ...rest];
}

function byTurns<T>(first: readonly T[], second: readonly T[]): T[] {
  const longer = Math.max(first.length, second.length);
  return Array.from({ length: longer }, (_, at) => [
    ...first.slice(at, at + 1),
    ...second.slice(at, at + 1),
  ]).flat();
}

/** Parts and whole tunes, in which hard places have to hold. */
export function isLong({ kind }: Passage): boolean {
  return kind === 'part' || kind === 'tune';
}

/** The order changed as little as it takes for neighbours to come from different tunes, where they can. */
function takeTurns(items: readonly Chosen[]): Chosen[] {
  const left = [...items];
  const turns: Chosen[] = [];
  while (left.length > 0) {
    const last = turns.at(-1)?.state.tune.id;
    const other = left.findIndex(({ state }) => state.tune.id !== last);
    turns.push(...left.splice(Math.max(0, other), 1));
  }
  return turns;
}
