import { add, compare, equal, rational, type Rational, toNumber, ZERO } from '../rhythm/rational';
import type { MeasureLabel } from '../tune/tune';
import { playedPasses, type PlayedPass } from './play-order';
import type { Score, ScoreMeasure, ScoreNote, ScoreVoice } from './score';
import { meterLength } from './score-meter';

/** What is to become a measure: what stands between two bar lines, or the two halves of what a sign has cut. */
export interface Fragment {
  notes: readonly ScoreNote[];
  labels: readonly MeasureLabel[];
  /** In whole notes. */
  length: Rational;
  /** What the meter in force asks for, in whole notes; `null` in free meter. */
  full: Rational | null;
  line: number;
  column: number;
}

/** Music that is played as one stretch, and perhaps again later. */
export interface Unit {
  /** The source's name for it. */
  name: string | null;
  fragments: Fragment[];
  /** One short measure that stands alone between signs: it leads into what follows. */
  isLeadIn: boolean;
}

/** Units, each once, and the order in which they are played: one entry a playing. */
export interface Plan {
  units: Unit[];
  played: number[];
}

/** A section as it is played: the indices of its measures, and how often in a row. */
interface Run {
  indices: number[];
  times: number;
  partAt: number;
  turn: number;
}

/**
 * A voice as the stretches that it is played in. Equal times through a section are one unit played again; times that
 * differ (numbered endings) are one longer unit, written out; a named part of several sections is one unit.
 */
export function playPlan({ order, meter }: Score, voice: ScoreVoice): Plan {
  const written = new Fragments(voice.measures, meter);
  const runs = sectionRuns(playedPasses(voice, order));
  const units: Unit[] = [];
  const played: number[] = [];
  const known = new Map<string, number>();
  for (const { indices, times, partAt } of partRuns(runs, (index) => written.isShort(index))) {
    const name = voice.measures[partAt]?.part ?? null;
    const key = `${partAt} ${indices.join(' ')}`;
    const fragments = written.joined(indices);
    if (fragments.length === 0) continue;
    const unit = known.get(key) ?? units.length;
    if (unit === units.length) {
      const isLeadIn = indices.length === 1 && written.isShort(indices[0] ?? 0);
      units.push({ name, fragments, isLeadIn });
      known.set(key, unit);
    }
    for (let time = 0; time < times; time += 1) played.push(unit);
  }
  return { units, played };
}

/** Passes of one section in a row: the shortest round of them that repeats, and how often. */
function sectionRuns(passes: readonly PlayedPass[]): Run[] {
  const sections: PlayedPass[][] = [];
  for (const pass of passes) {
    const last = sections.at(-1);
    if (last?.[0]?.start === pass.start && last[0].turn === pass.turn) last.push(pass);
    else sections.push([pass]);
  }
  return sections.flatMap((section) => {
    const [first] = section;
    if (!first) return [];
    const keys = section.map(({ indices }) => indices.join(' '));
    let round = 1;
    while (keys.length % round !== 0 || keys.some((key, index) => key !== keys[index % round])) round += 1;
    const indices = section.slice(0, round).flatMap((pass) => pass.indices);
    return [{ indices, times: section.length / round, partAt: first.partAt, turn: first.turn }];
  });
}

/** Sections of one named part in a row are played out as one; a short measure that stands alone stays apart. */
function partRuns(runs: readonly Run[], isShort: (index: number) => boolean): Run[] {
  const parts: Run[][] = [];
  for (const run of runs) {
    const last = parts.at(-1)?.at(-1);
    const alone = (one: Run) => one.indices.length === 1 && isShort(one.indices[0] ?? 0);
    const together = last && last.partAt === run.partAt && last.turn === run.turn && run.partAt >= 0;
    if (together && !alone(last) && !alone(run)) parts.at(-1)?.push(run);
    else parts.push([run]);
  }
  return parts.flatMap((part) => {
    const [first] = part;
    if (!first || part.length === 1) return part;
    const indices = part.flatMap(({ indices: one, times }) =>
      Array.from({ length: times }, () => one).flat(),
    );
    return [{ ...first, indices, times: 1 }];
  });
}

/** The measures of a voice as fragments, each with the meter in force. */
class Fragments {
  readonly #measures: readonly ScoreMeasure[];
  readonly #fragments: Fragment[] = [];

  constructor(measures: readonly ScoreMeasure[], first: Score['meter']) {
    this.#measures = measures;
    let meter = first;
    for (const measure of measures) {
      meter = measure.meter ?? meter;
      const { labels, line, column } = measure;
      const notes = measure.notes.map((note) => ({
        ...note,
        onset: kept(note.onset),
        duration: kept(note.duration),
      }));
      const length = reaching(kept(measure.length), notes);
      const full = meter ? meterLength(meter) : null;
      this.#fragments.push({ notes, labels: labels.map(keptLabel), length, full, line, column });
    }
  }

  isShort(index: number): boolean {
    const fragment = this.#fragments[index];
    return fragment !== undefined && isShort(fragment);
  }

  /** The fragments of measures in the order given, without empty ones; halves that a sign has cut are made whole. */
  joined(indices: readonly number[]): Fragment[] {
    const joined: Fragment[] = [];
    let before: number | null = null;
    for (const index of indices) {
      const fragment = this.#fragments[index];
      if (!fragment || compare(fragment.length, ZERO) <= 0) continue;
      const last = joined.at(-1);
      if (last && before !== null && completes(last, fragment) && this.#isCut(before, index))
        joined[joined.length - 1] = together(last, fragment);
      else joined.push(fragment);
      before = index;
    }
    return joined;
  }

  /** True where more than a plain bar line stands between two measures. */
  #isCut(before: number, index: number): boolean {
    const [left, right] = [this.#measures[before], this.#measures[index]];
    if (!left || !right || index !== before + 1) return true;
    const sameEnding = (left.ending?.join() ?? null) === (right.ending?.join() ?? null);
    return left.timesPlayed > 0 || left.endsSection || right.opensRepeat || !sameEnding;
  }
}

export function isShort({ length, full }: Fragment): boolean {
  return full !== null && compare(length, full) < 0;
}

/** True when two fragments make one full measure. */
export function completes(first: Fragment, second: Fragment): boolean {
  return (
    isShort(first) &&
    isShort(second) &&
    first.full !== null &&
    equal(add(first.length, second.length), first.full)
  );
}

/** Two fragments as one measure. */
export function together(first: Fragment, second: Fragment): Fragment {
  const moved = <T extends { onset: Rational }>(things: readonly T[]) =>
    things.map((thing) => ({ ...thing, onset: add(first.length, thing.onset) }));
  return {
    ...first,
    notes: [...first.notes, ...moved(second.notes)],
    labels: [...first.labels, ...moved(second.labels)],
    length: add(first.length, second.length),
  };
}

/** Finer than any written tuplet of 64th notes; whatever is finer goes to the nearest of `SNAPPED`. */
const FINEST = 2048;
/** 2^5 * 3^2 * 5 * 7: all common tuplets come out in it. */
const SNAPPED = 10_080;
/** In whole notes: longer than any tune without bar lines. */
const LONGEST = 1000;

/** A place or length that exact sums can be made of, whatever a source says. */
function kept(value: Rational): Rational {
  if (value[0] >= 0 && value[0] <= LONGEST * value[1] && value[1] <= FINEST) return value;
  const within = Math.min(LONGEST, Math.max(0, toNumber(value) || 0));
  return rational(Math.round(within * SNAPPED), SNAPPED);
}

function keptLabel(label: MeasureLabel): MeasureLabel {
  return { ...label, onset: kept(label.onset) };
}

/** A measure is at least as long as the last onset in it asks for. */
function reaching(length: Rational, notes: readonly ScoreNote[]): Rational {
  return notes.reduce(
    (most, { onset, duration }) => (compare(onset, most) >= 0 ? add(onset, duration) : most),
    length,
  );
}
