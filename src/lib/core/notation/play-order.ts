import { NO_SIGNS, type Score, type ScoreMeasure, type ScoreVoice } from './score';

/** One time through a section as it is played. */
export interface PlayedPass {
  /** Index of the measure at which the section begins, in every pass of it. */
  start: number;
  /** Indices of the measures played, in order; at least one. */
  indices: number[];
  /** Index of the measure at which the part begins that the section belongs to; -1 in no part. */
  partAt: number;
  /** Counts the parts as they are called up by the order of parts; 0 throughout where there is no order. */
  turn: number;
}

/** More than any tune, repeats written out; a nonsensical source is cut here. */
export const PLAYED_MEASURES_MAX = 20_000;
/** Times through one section: the most that a repeat sign or an ending can ask for. */
const TIMES_MAX = 64;

type Order = Score['order'];

/**
 * The measures of a voice as they are played, by their indices. Repeats, missing repeat starts and numbered endings go
 * by ABC 2.1, sections 4.8 to 4.10, which MusicXML shares. Where an order of parts is given, each part is played with
 * its own repeats (as `abc2midi` does); but a part whose endings are as many as its times in a row is played
 * through once for them all (ABC 2.1, 4.10: `P:A4` with endings 1 to 4). At most 20,000 measures.
 */
export function playOrder(voice: ScoreVoice, order: Order): number[] {
  return playedPasses(voice, order).flatMap(({ indices }) => indices);
}

/** A score with its first voice as it is played: repeats, endings and parts played out, the melody alone. */
export function playedOut(score: Score): Score {
  const voices = score.voices.slice(0, 1).map((voice) => ({
    ...voice,
    measures: playOrder(voice, score.order).flatMap((index): ScoreMeasure[] => {
      const measure = voice.measures[index];
      if (!measure) return [];
      return [{ ...measure, ...NO_SIGNS, labels: [] }];
    }),
  }));
  return { ...score, voices, order: null };
}

/** The same as `playOrder`, told section by section. */
export function playedPasses({ measures }: ScoreVoice, order: Order): PlayedPass[] {
  const player = new Player(measures);
  const parts = partRanges(measures);
  const ordered = (order ?? []).slice(0, PLAYED_MEASURES_MAX).filter((name) => parts.has(name));
  if (ordered.length === 0) {
    player.play(0, measures.length, null);
    return player.passes;
  }
  const first = measures.findIndex(({ part }) => part !== null);
  player.play(0, first, null);
  for (const { name, times } of runsOf(ordered)) {
    const ranges = parts.get(name) ?? [];
    const endings = Math.max(0, ...ranges.map(([from, to]) => lastEnding(measures, from, to)));
    const throughOnce = times > 1 && endings === times && ranges.some(hasRepeats(measures));
    for (let time = 1; time <= (throughOnce ? 1 : times); time += 1) {
      for (const [from, to] of ranges) player.play(from, to, time);
    }
  }
  return player.passes;
}

/** Names of parts that stand in the music and are not in the order in which parts are played. */
export function partsLeftOut({ measures }: ScoreVoice, order: Order): string[] {
  const names = [...partRanges(measures).keys()];
  if (!order?.some((name) => names.includes(name))) return [];
  return names.filter((name) => !order.includes(name));
}

type Range = readonly [from: number, to: number];

/** Where each named part stands, `to` not included. A name that stands twice means both places. */
function partRanges(measures: readonly ScoreMeasure[]): Map<string, Range[]> {
  const starts = measures.flatMap(({ part }, index) => (part === null ? [] : [{ part, index }]));
  const ranges = new Map<string, Range[]>();
  for (const [index, { part, index: from }] of starts.entries()) {
    const range: Range = [from, starts[index + 1]?.index ?? measures.length];
    ranges.set(part, [...(ranges.get(part) ?? []), range]);
  }
  return ranges;
}

function runsOf(order: readonly string[]): { name: string; times: number }[] {
  const runs: { name: string; times: number }[] = [];
  for (const name of order) {
    const last = runs.at(-1);
    if (last?.name === name) last.times += 1;
    else runs.push({ name, times: 1 });
  }
  return runs;
}

function lastEnding(measures: readonly ScoreMeasure[], from: number, to: number): number {
  let last = 0;
  for (let index = from; index < to; index += 1) {
    for (const number of measures[index]?.ending ?? []) last = Math.max(last, number);
  }
  return Math.min(TIMES_MAX, last);
}

const hasRepeats =
  (measures: readonly ScoreMeasure[]) =>
  ([from, to]: Range): boolean =>
    measures.slice(from, to).some(({ timesPlayed }) => timesPlayed > 0);

/** Endings that stand together: measures `from` to `to` (not included), and the times through that they are for. */
interface EndingGroup {
  from: number;
  to: number;
  numbers: ReadonlySet<number>;
  /** A repeat ends at one of them, or just before. */
  isRepeated: boolean;
}

function endingGroups(measures: readonly ScoreMeasure[]): Map<number, EndingGroup> {
  const groups = new Map<number, EndingGroup>();
  for (let from = 0; from < measures.length; from += 1) {
    if (!measures[from]?.ending) continue;
    let to = from + 1;
    while (joinsEndingBefore(measures[to])) to += 1;
    const numbers = new Set(measures.slice(from, to).flatMap(({ ending }) => ending ?? []));
    const isRepeated = measures.slice(Math.max(0, from - 1), to).some(({ timesPlayed }) => timesPlayed > 0);
    for (let index = from; index < to; index += 1) groups.set(index, { from, to, numbers, isRepeated });
    from = to - 1;
  }
  return groups;
}

function joinsEndingBefore(measure: ScoreMeasure | undefined): boolean {
  return !!measure?.ending && !measure.opensRepeat && measure.part === null;
}

/** Plays ranges of measures one after the other and keeps the passes. */
class Player {
  readonly passes: PlayedPass[] = [];
  readonly #measures: readonly ScoreMeasure[];
  readonly #groups: ReadonlyMap<number, EndingGroup>;
  readonly #partAt: number[] = [];
  #turn = -1;
  #left = PLAYED_MEASURES_MAX;

  constructor(measures: readonly ScoreMeasure[]) {
    this.#measures = measures;
    this.#groups = endingGroups(measures);
    for (const [index, { part }] of measures.entries())
      this.#partAt.push(part === null ? (this.#partAt.at(-1) ?? -1) : index);
  }

  /**
   * Plays `from` up to `to` (not included). `partTime` is which time in a row the part is played; endings of a part
   * that has no repeat signs go by it.
   */
  play(from: number, to: number, partTime: number | null): void {
    this.#turn += 1;
    const byPart = partTime !== null && !hasRepeats(this.#measures)([from, to]);
    const firstTime = byPart ? partTime : 1;
    let [start, time] = [from, firstTime];
    // a `|:` that is still to be closed: double bars inside it do not move the place that `:|` goes back to
    let opened = false;
    // the last time through is over, but endings for earlier times may still follow
    let over = false;
    let fresh = true;
    const beginAt = (index: number) => {
      [start, time, opened, over, fresh] = [index, firstTime, false, false, true];
    };
    for (let index = from; index < to && this.#left > 0; index += 1) {
      const measure = this.#measures[index];
      if (!measure) return;
      if ((over && measure.ending === null) || (measure.opensRepeat && index !== start)) beginAt(index);
      opened ||= measure.opensRepeat;
      const group = this.#groupOf(index, byPart);
      if (group && !isPlayed(measure, time, group)) {
        over ||= index + 1 === group.to;
        continue;
      }
      this.#add(index, start, fresh);
      fresh = false;
      if (over) continue;
      const next = index + 1 < to ? this.#measures[index + 1] : undefined;
      const endsTime = measure.timesPlayed > 0 || (group && !sameEnding(measure.ending, next?.ending));
      if (endsTime && !byPart) {
        const times = timesThrough(measure, group ?? (next && this.#groupOf(index + 1, byPart)));
        if (time < times && (measure.timesPlayed > 0 || measure.ending?.includes(time))) {
          time += 1;
          fresh = true;
          index = start - 1;
        } else if (next?.ending) over = true;
        else beginAt(index + 1);
      } else if (measure.endsSection && !opened && !next?.ending) {
        beginAt(index + 1);
      }
    }
  }

  /** Endings that no repeat goes with are played through, unless the times of the part tell them apart. */
  #groupOf(index: number, byPart: boolean): EndingGroup | undefined {
    const group = this.#groups.get(index);
    return group?.isRepeated || byPart ? group : undefined;
  }

  #add(index: number, start: number, fresh: boolean): void {
    this.#left -= 1;
    const last = this.passes.at(-1);
    if (last && !fresh) last.indices.push(index);
    else this.passes.push({ start, indices: [index], partAt: this.#partAt[start] ?? -1, turn: this.#turn });
  }
}

/** A time through that has no ending of its own takes the next one; after the only ending it leaves that out. */
function isPlayed({ ending }: ScoreMeasure, time: number, { numbers }: EndingGroup): boolean {
  if (numbers.has(time)) return ending?.includes(time) ?? false;
  const later = [...numbers].filter((number) => number > time);
  return later.length > 0 && (ending?.includes(Math.min(...later)) ?? false);
}

function timesThrough({ timesPlayed }: ScoreMeasure, group: EndingGroup | undefined): number {
  const endings = Math.max(0, ...(group?.numbers ?? []));
  return Math.min(TIMES_MAX, endings > 1 ? endings : Math.max(timesPlayed, endings));
}

function sameEnding(a: readonly number[] | null, b: readonly number[] | null | undefined): boolean {
  return !!a && !!b && a.length === b.length && a.every((number, index) => number === b[index]);
}
