import { say } from '../../texts/typed-tab';
import { meterShape, type Meter } from '../rhythm/meter';
import { compare } from '../rhythm/rational';
import { isForm } from '../tune/draft-problems';
import { MEASURES_MAX } from '../tune/limits';
import { findSharedMeasures } from '../tune/shared-measures';
import type { Pickup } from '../tune/tune';
import type { Tuning } from '../tune/tuning';
import { refusedReading, Warnings, type Reading } from './reading';
import { trustedCounts } from './typed-tab-counting';
import { unfoldedEndings } from './typed-tab-endings';
import { typedHeader, type TypedHeader } from './typed-tab-header';
import { typedItems, type TypedItem } from './typed-tab-lines';
import { TabBudget, typedMeasures, type TypedMeasure } from './typed-tab-measures';
import {
  gridOf,
  joinedMeasure,
  timedMeasure,
  timedPickup,
  type TimedMeasure,
  type Timing,
} from './typed-tab-rhythm';
import { isPickup, typedWidths } from './typed-tab-spacing';

const MOST_CHARACTERS = 1_000_000;
const MOST_LINES = 20_000;
const PART_LETTERS = [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'];

interface TypedPart {
  name: string;
  /** It has a heading of its own. */
  isHeaded: boolean;
  repeated: boolean;
  /** Times through that are written out one after the other; 1 without endings. */
  times: number;
  measures: TypedMeasure[];
}

/**
 * Reads tab as people type it: five lines of dashes and fret numbers with bar lines, and what they set over and under
 * these: the count, rhythm letters, chords, words, numbers of endings. `meter` is for a text that does not say it, or,
 * where the learner has chosen it (`isMeterChosen`), for any text. Without a count or letters the place of a number
 * between its bar lines gives its onset, the next number its end. Endings are played out.
 */
export function readTypedTab(
  text: string,
  { meter, isMeterChosen = false }: { meter: Meter; isMeterChosen?: boolean },
): Reading {
  if (text.length > MOST_CHARACTERS) {
    return refusedReading(say.tooManyCharacters);
  }
  if (lineCount(text) > MOST_LINES) {
    return refusedReading(say.tooManyLines(MOST_LINES));
  }
  const warnings = new Warnings();
  const items = typedItems(text, warnings);
  const header = headerOf(items, warnings);
  const parts = typedParts(items, warnings);
  if (parts.length === 0 && warnings.list().length === 0) {
    return refusedReading(say.noTab);
  }
  const isSaid = header.meter !== null && !isMeterChosen;
  const played = isSaid && header.meter ? header.meter : meter;
  const timed = timedParts(parts, played, isSaid, warnings);
  const kept = timed.parts.map(({ name, measures }) => ({
    name,
    measures: measures.map(({ beats, strikes, labels }) => ({
      ...{ beats, strikes, sameAs: null },
      ...(labels && { labels }),
    })),
  }));
  return {
    title: header.title,
    key: header.key,
    meter: isSaid ? header.meter : null,
    tuning: tuningOf(items, header),
    capo: header.capo,
    ...(header.spike !== null && { spike: header.spike }),
    tempo: header.tempo,
    form: formOf(parts, kept, header, warnings),
    parts: findSharedMeasures(kept),
    pickup: timed.pickup,
    warnings: warnings.list(),
  };
}

function headerOf(items: readonly TypedItem[], warnings: Warnings): TypedHeader {
  const block = items.findIndex(({ kind }) => kind === 'block');
  const textOf = (list: readonly TypedItem[]) =>
    list.flatMap((item) => (item.kind === 'text' ? [{ line: item.line, text: item.text }] : []));
  return typedHeader(textOf(block === -1 ? items : items.slice(0, block)), textOf(items), warnings);
}

function lineCount(text: string): number {
  let count = 1;
  for (const _ of text.matchAll(/\r\n|\r|\n/g)) count += 1;
  return count;
}

function typedParts(items: readonly TypedItem[], warnings: Warnings): TypedPart[] {
  const headed = items.some(({ kind }) => kind === 'heading');
  const found = pickupInFirstPart(cutParts(items, headed, warnings), headed);
  return found.map((part) => {
    const { measures, times } = unfoldedEndings(part.measures, warnings);
    return { ...part, times, measures: withinPart(part.name, measures, warnings) };
  });
}

function withinPart(name: string, measures: TypedMeasure[], warnings: Warnings): TypedMeasure[] {
  const beyond = measures[MEASURES_MAX];
  if (!beyond) return measures;
  warnings.add(beyond.line, beyond.column, say.partTooLong(name, MEASURES_MAX));
  return measures.slice(0, MEASURES_MAX);
}

/** Parts begin at headings; in a text without headings, at repeat signs and double bar lines. */
function cutParts(items: readonly TypedItem[], headed: boolean, warnings: Warnings): TypedPart[] {
  const budget = new TabBudget(warnings);
  const parts: TypedPart[] = [];
  let open: TypedPart | null = null;
  let wanted: Extract<TypedItem, { kind: 'heading' }> | null = null;
  let closed: TypedPart | null = null;
  for (const item of items) {
    if (item.kind === 'heading') {
      wanted = item;
      open = closed = null;
    } else if (item.kind === 'block') {
      for (const measure of typedMeasures(item.rows, item.beside, warnings, budget)) {
        const isLater = measure.ending?.numbers.includes(1) === false;
        if (!headed && isLater) open ??= closed;
        else if (!headed && measure.opensRepeat) open = null;
        if (!open) {
          const name = freePartName(parts, wanted, warnings);
          if (!name) {
            tooManyParts(measure, warnings);
            continue;
          }
          open = {
            ...{ name, isHeaded: wanted !== null, repeated: wanted?.isRepeated ?? false },
            ...{ times: 1, measures: [] },
          };
          parts.push(open);
        }
        open.measures.push(measure);
        if (measure.closesRepeat) open.repeated = true;
        closed = open;
        if (!headed && (measure.closesRepeat || measure.closesPart)) open = null;
      }
    }
  }
  return parts;
}

/** A pickup typed before the first repeat sign or heading belongs to the part that it leads into. */
function pickupInFirstPart(parts: TypedPart[], headed: boolean): TypedPart[] {
  const [lone, next, ...rest] = parts;
  const pickup = lone?.measures.length === 1 ? lone.measures[0] : undefined;
  if (!pickup || !next || lone?.isHeaded || pickup.counts[0]?.text === '1') return parts;
  const widths = typedWidths(parts.flatMap(({ measures }) => measures));
  if (!isPickup(pickup, widths)) return parts;
  const joined = [{ ...next, measures: [pickup, ...next.measures] }, ...rest];
  return headed ? joined : joined.map((part, index) => ({ ...part, name: PART_LETTERS[index] ?? part.name }));
}

function freePartName(
  parts: readonly TypedPart[],
  heading: { line: number; letter: string | null } | null,
  warnings: Warnings,
): string | null {
  const used = new Set(parts.map(({ name }) => name));
  const letter = heading?.letter ?? null;
  const free = PART_LETTERS.find((candidate) => !used.has(candidate)) ?? null;
  if (!letter || !used.has(letter)) return letter ?? free;
  if (heading && free) {
    warnings.add(heading.line, 1, say.partAgain(letter, free));
  }
  return free;
}

function tooManyParts({ line, column }: TypedMeasure, warnings: Warnings): void {
  warnings.add(line, column, say.tooManyParts(PART_LETTERS.length));
}

function timedParts(
  parts: readonly TypedPart[],
  meter: Meter,
  isMeterSaid: boolean,
  warnings: Warnings,
): { parts: { name: string; measures: TimedMeasure[] }[]; pickup: Pickup | null } {
  const all = [...new Set(parts.flatMap(({ measures }) => measures))];
  const widths = typedWidths(all);
  const unit = trustedCounts(all, meter, isMeterSaid, warnings);
  const timing = { meter, widths, unit, warnings };
  const first = all[0];
  const lead = first && all.length > 1 && isFirstPickup(first, timing) ? first : null;
  const pickup = lead && timedPickup(lead, timing);
  // what is played twice is timed once, so that it is told once
  const times = new Map<TypedMeasure, TimedMeasure>();
  const timed = parts.map(({ name, measures }) => ({
    name,
    measures: measures.flatMap((measure, index) => {
      if (measure === lead) return [];
      const isAtEdge = index === 0 || index === measures.length - 1;
      const one = times.get(measure) ?? timedMeasure(measure, isAtEdge ? 0.5 : 1, timing);
      times.set(measure, one);
      return [one];
    }),
  }));
  closeRepeats(timed, pickup, meter);
  return { parts: timed.filter(({ measures }) => measures.length > 0), pickup };
}

/** A counted first measure is a pickup when its count does not begin at the first place; another when it is narrow. */
function isFirstPickup(first: TypedMeasure, timing: Timing): boolean {
  const grid = gridOf(first, timing);
  const counted = grid?.marks[0]?.place;
  return counted ? compare(counted, [0, 1]) > 0 : isPickup(first, timing.widths);
}

/** Makes whole what a repeat sign cut: a part's short last measure with the next part's short first one, or with the pickup. */
function closeRepeats(parts: { measures: TimedMeasure[] }[], pickup: Pickup | null, meter: Meter): void {
  const { beats } = meterShape(meter);
  for (const [index, { measures }] of parts.entries()) {
    const last = measures.at(-1);
    const next = parts[index + 1]?.measures;
    if (!last || last.beats >= beats || last.isSure) continue;
    if (next?.[0] && next.length > 1 && !next[0].isSure && last.beats + next[0].beats === beats) {
      measures[measures.length - 1] = joinedMeasure(last, next[0], meter);
      next.shift();
    } else if (pickup && last.beats + pickup.beats === beats) {
      measures[measures.length - 1] = { ...last, beats };
    }
  }
}

/** As the header says; else every part twice that has a repeat sign, or all where none has one. */
function formOf(
  typed: readonly TypedPart[],
  parts: readonly { name: string }[],
  header: TypedHeader,
  warnings: Warnings,
): string {
  const kept = typed.filter(({ name }) => parts.some((part) => part.name === name));
  if (header.form !== null) {
    // what is written out once for all its times is played once
    const said = kept.reduce(
      (form, { name, times }) => (times > 1 ? form.replaceAll(name.repeat(times), name) : form),
      header.form,
    );
    const isWhole = kept.every(({ name }) => said.includes(name));
    if (isForm(said) && isWhole && [...said].every((letter) => kept.some(({ name }) => name === letter)))
      return said;
    warnings.add(header.formLine, 1, say.otherForm(header.form.slice(0, 40)));
  }
  const signs = kept.some(({ repeated, times }) => repeated || times > 1);
  return kept
    .map(({ name, repeated, times }) => (times === 1 && (repeated || !signs) ? name + name : name))
    .join('');
}

function tuningOf(items: readonly TypedItem[], header: TypedHeader): Tuning | null {
  const labelled = items.find((item) => item.kind === 'block' && item.tuning);
  return header.tuning ?? (labelled?.kind === 'block' ? labelled.tuning : null);
}
