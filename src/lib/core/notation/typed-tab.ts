import { meterShape, type Meter } from '../rhythm/meter';
import { findSharedMeasures } from '../tune/shared-measures';
import type { Pickup } from '../tune/tune';
import type { Tuning } from '../tune/tuning';
import { refusedReading, Warnings, type Reading } from './reading';
import { tuningNamedIn, typedItems, type TypedItem } from './typed-tab-lines';
import { typedMeasures, type TypedMeasure } from './typed-tab-measures';
import {
  beatsByWidth,
  isPickup,
  joinedMeasure,
  timedMeasure,
  timedPickup,
  typedWidths,
  type TimedMeasure,
  type TypedWidths,
} from './typed-tab-rhythm';

const MOST_CHARACTERS = 1_000_000;
const MOST_LINES = 20_000;
const PART_LETTERS = [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'];

interface TypedPart {
  name: string;
  repeated: boolean;
  measures: TypedMeasure[];
}

/**
 * Reads tab as people type it: five lines of dashes and fret numbers with bar lines. Text does not say its meter, so
 * it is an argument. The place of a number between its bar lines gives its onset, the next number its end.
 */
export function readTypedTab(text: string, { meter }: { meter: Meter }): Reading {
  if (text.length > MOST_CHARACTERS) {
    return refusedReading(
      'This text is longer than a million characters, more than any tab. Nothing was read.',
    );
  }
  if (lineCount(text) > MOST_LINES) {
    return refusedReading('This text has more than 20,000 lines, more than any tab. Nothing was read.');
  }
  const warnings = new Warnings();
  const items = typedItems(text, warnings);
  const headed = items.some(({ kind }) => kind === 'heading');
  const parts = pickupInFirstPart(typedParts(items, headed, warnings), headed);
  if (parts.length === 0 && warnings.list().length === 0) {
    return refusedReading(
      'No tab was found in this text: five lines of dashes and fret numbers are looked for.',
    );
  }
  const timed = timedParts(parts, meter, warnings);
  return {
    title: titleOf(items),
    key: null,
    meter: null,
    tuning: tuningOf(items),
    capo: null,
    tempo: null,
    form: guessedForm(parts),
    parts: findSharedMeasures(
      timed.parts.map(({ name, measures }) => ({
        name,
        measures: measures.map((measure) => ({ ...measure, sameAs: null })),
      })),
    ),
    pickup: timed.pickup,
    warnings: warnings.list(),
  };
}

function lineCount(text: string): number {
  let count = 1;
  for (const _ of text.matchAll(/\r\n|\r|\n/g)) count += 1;
  return count;
}

/** Parts begin at headings; in a text without headings, at repeat signs and double bar lines. */
function typedParts(items: readonly TypedItem[], headed: boolean, warnings: Warnings): TypedPart[] {
  const parts: TypedPart[] = [];
  let open: TypedPart | null = null;
  let wanted: Extract<TypedItem, { kind: 'heading' }> | null = null;
  const addMeasure = (measure: TypedMeasure) => {
    if (!headed && measure.opensRepeat) open = null;
    if (!open) {
      const name = freePartName(parts, wanted, warnings);
      if (!name) return tooManyParts(measure, warnings);
      open = { name, repeated: false, measures: [] };
      parts.push(open);
    }
    open.measures.push(measure);
    if (measure.closesRepeat) open.repeated = true;
    if (!headed && (measure.closesRepeat || measure.closesPart)) open = null;
  };
  for (const item of items) {
    if (item.kind === 'heading') {
      wanted = item;
      open = null;
    } else if (item.kind === 'block') {
      typedMeasures(item.rows, warnings).forEach(addMeasure);
    } else if (/(?:^|\s)\[?[12](?:\.|st ending|nd ending)(?:\s|$)/.test(item.text)) {
      warnings.add(item.line, 1, 'endings are read as measures one after the other; look at the form');
    }
  }
  return parts;
}

/** A pickup typed before the first repeat sign or heading belongs to the part that it leads into. */
function pickupInFirstPart(parts: TypedPart[], headed: boolean): TypedPart[] {
  const [lone, next, ...rest] = parts;
  const pickup = lone?.measures.length === 1 ? lone.measures[0] : undefined;
  if (!pickup || !next) return parts;
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
    warnings.add(heading.line, 1, `part ${letter} stands here again; this one is read as part ${free}`);
  }
  return free;
}

function tooManyParts({ line, column }: TypedMeasure, warnings: Warnings): void {
  warnings.add(line, column, 'a tune has 26 parts at most; this measure is left out');
}

function timedParts(
  parts: readonly TypedPart[],
  meter: Meter,
  warnings: Warnings,
): { parts: { name: string; measures: TimedMeasure[] }[]; pickup: Pickup | null } {
  const all = parts.flatMap(({ measures }) => measures);
  const widths = typedWidths(all);
  const first = all[0];
  const hasPickup = first !== undefined && all.length > 1 && isPickup(first, widths);
  const pickup = hasPickup ? timedPickup(first, widths, meter, warnings) : null;
  const timed = parts.map(({ name, measures }) => ({
    name,
    measures: measures.flatMap((measure, index) =>
      hasPickup && measure === first
        ? []
        : [timeOne(measure, index === 0 || index === measures.length - 1, widths, meter, warnings)],
    ),
  }));
  closeRepeats(timed, pickup, meter);
  return { parts: timed.filter(({ measures }) => measures.length > 0), pickup };
}

function timeOne(
  measure: TypedMeasure,
  atEdge: boolean,
  widths: TypedWidths,
  meter: Meter,
  warnings: Warnings,
): TimedMeasure {
  const beats = beatsByWidth(measure, widths, meter, atEdge ? 0.5 : 1);
  return timedMeasure(measure, beats, widths, meter, warnings);
}

/** Makes whole what a repeat sign cut: a part's short last measure with the next part's short first one, or with the pickup. */
function closeRepeats(parts: { measures: TimedMeasure[] }[], pickup: Pickup | null, meter: Meter): void {
  const { beats } = meterShape(meter);
  for (const [index, { measures }] of parts.entries()) {
    const last = measures.at(-1);
    const next = parts[index + 1]?.measures;
    if (!last || last.beats >= beats) continue;
    if (next?.[0] && next.length > 1 && last.beats + next[0].beats === beats) {
      measures[measures.length - 1] = joinedMeasure(last, next[0], meter);
      next.shift();
    } else if (pickup && last.beats + pickup.beats === beats) {
      measures[measures.length - 1] = { ...last, beats };
    }
  }
}

function guessedForm(parts: readonly TypedPart[]): string {
  const signs = parts.some(({ repeated }) => repeated);
  return parts.map(({ name, repeated }) => (repeated || !signs ? name + name : name)).join('');
}

function titleOf(items: readonly TypedItem[]): string | null {
  const block = items.findIndex(({ kind }) => kind === 'block');
  const above = block === -1 ? items : items.slice(0, block);
  const line = above.find((item) => item.kind === 'text');
  if (line?.kind !== 'text') return null;
  return line.text.replace(/^title\s*:\s*/i, '').slice(0, 200) || null;
}

function tuningOf(items: readonly TypedItem[]): Tuning | null {
  for (const item of items) {
    const tuning =
      item.kind === 'block' ? item.tuning : item.kind === 'text' ? tuningNamedIn(item.text) : null;
    if (tuning) return tuning;
  }
  return null;
}
