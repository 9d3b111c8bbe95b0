import { isId } from '$lib/core/book/id';
import {
  BEATS_MIN,
  FITTED_BEATS_MAX,
  MINUTES_MAX,
  OFFSET_MAX,
  OFFSET_MIN,
  TIME_MAX,
  TIME_MIN,
} from '$lib/core/book/limits';
import {
  CLIMBS,
  HANDS,
  OUTCOMES,
  type Drill,
  type LogEntry,
  type SealedSitting,
  type Sitting,
} from '$lib/core/practice/records';
import { METERS, TEMPO_MAX, TEMPO_MIN } from '$lib/core/rhythm/meter';
import { passageFromKey, passageKey, type Passage } from '$lib/core/tune/passage';
import { TECHNIQUES } from '$lib/core/tune/strike';
import type { Tune } from '$lib/core/tune/tune';

/**
 * Quick checks by hand for the rows of our own tables and for the log: enough that nothing that reads a record can
 * trip over it. The schemas of core/book are stricter, and far larger than the first screen can load.
 */
type Fields = Readonly<Record<string, unknown>>;

export function isEntry(value: unknown): value is LogEntry {
  if (!isRecord(value) || !isMoment(value) || !isId(value['id']) || !isId(value['drillId'])) return false;
  const { kind, outcome, tempo, missAt, passId, fromMemory } = value;
  if (kind === 'correction') return isId(passId) && (outcome === 'unmarked' || isOneOf(OUTCOMES, outcome));
  return (
    kind === 'pass' &&
    isOneOf(OUTCOMES, outcome) &&
    isWithin(tempo, TEMPO_MIN, TEMPO_MAX) &&
    typeof fromMemory === 'boolean' &&
    (missAt === null || Number.isInteger(missAt))
  );
}

export function isDrill(value: unknown): value is Drill {
  return (
    isRecord(value) &&
    isMoment(value) &&
    isId(value['id']) &&
    isId(value['sittingId']) &&
    isOneOf(CLIMBS, value['climb']) &&
    isPassage(value['passage'])
  );
}

export function isSitting(value: unknown): value is Sitting {
  return (
    isRecord(value) &&
    isMoment(value) &&
    isId(value['id']) &&
    isWithin(value['minutes'], 0, MINUTES_MAX) &&
    isOneOf(HANDS, value['hands']) &&
    typeof value['note'] === 'string' &&
    (value['tuning'] === null || isTuning(value['tuning']))
  );
}

export function isSealed(value: unknown): value is SealedSitting {
  if (!isSitting(value)) return false;
  const { endedAt, drills, log } = value as unknown as Fields;
  return isTime(endedAt) && isListOf(drills, isDrill) && isListOf(log, looksLikeEntry);
}

/** For entries that were checked when they were written: a book has a million of them, and this is ten times as fast. */
function looksLikeEntry(value: unknown): value is LogEntry {
  if (typeof value !== 'object' || value === null) return false;
  const { kind, at, offsetMin, id, drillId, tempo, outcome } = value as Partial<Record<string, unknown>>;
  return (
    isTime(at) &&
    isOffset(offsetMin) &&
    typeof id === 'string' &&
    typeof drillId === 'string' &&
    typeof outcome === 'string' &&
    (kind === 'correction' || (kind === 'pass' && isWithin(tempo, TEMPO_MIN, TEMPO_MAX)))
  );
}

export function isTune(value: unknown): value is Tune {
  if (!isRecord(value) || !isId(value['id']) || !isTuning(value['tuning'])) return false;
  const { title, meter, goalTempo, form, parts, figures, layers, shelf = [], editedAt } = value;
  if (typeof title !== 'string' || typeof form !== 'string' || !isTime(editedAt)) return false;
  if (!isOneOf(METERS, meter) || !isWithin(goalTempo, TEMPO_MIN, TEMPO_MAX)) return false;
  if (!isListOf(figures, isFigure) || !isListOf(layers, isLayer) || layers.length === 0) return false;
  if (!isListOf(parts, isPart) || parts.length === 0 || !isListOf(shelf, isMeasure)) return false;
  if (!isSetup(value) || !isRecord(value['added']) || !isMoment(value['added'])) return false;
  if (value['pickup'] !== null && !isContent(value['pickup'])) return false;
  const known = new Set(figures.map(({ id }) => id));
  const named = [
    ...parts.flatMap(({ measures }) => measures.map(({ figureId }) => figureId)),
    ...layers.flatMap(({ changes }) => Object.values(changes)),
  ];
  return named.every((id) => known.has(id));
}

function isPart(value: unknown): value is { measures: Fields[] } {
  if (!isRecord(value) || typeof value['name'] !== 'string') return false;
  const { measures } = value;
  return isListOf(measures, isMeasure) && measures.length > 0;
}

function isMeasure(value: unknown): value is Fields {
  return isRecord(value) && isId(value['id']) && isListOf(value['labels'] ?? [], isLabel);
}

function isLabel(value: unknown): value is Fields {
  return isRecord(value) && isFraction(value['onset']) && typeof value['text'] === 'string';
}

/** Capo, spike and key, and whether it is put away or deleted. */
function isSetup({ capo, spike, key, archived, deletedAt }: Fields): boolean {
  const isPlaced = Number.isInteger(capo) && Number.isInteger(spike) && typeof key === 'string';
  return isPlaced && typeof archived === 'boolean' && (deletedAt === null || isTime(deletedAt));
}

function isFigure(value: unknown): value is { id: unknown } {
  return isContent(value) && isId(value['id']);
}

/** What a measure or a pickup holds. */
function isContent(value: unknown): value is Fields {
  return (
    isRecord(value) &&
    isWithin(value['beats'], BEATS_MIN, FITTED_BEATS_MAX) &&
    (value['strikes'] === null || isListOf(value['strikes'], isStrike)) &&
    isListOf(value['melody'] ?? [], isNote)
  );
}

function isStrike(value: unknown): value is Fields {
  return (
    isLasting(value) &&
    isWithin(value['string'], 1, 5) &&
    Number.isInteger(value['string']) &&
    Number.isInteger(value['fret']) &&
    isOneOf(TECHNIQUES, value['technique'])
  );
}

function isNote(value: unknown): value is Fields {
  return isLasting(value) && Number.isInteger(value['pitch']);
}

function isLasting(value: unknown): value is Fields {
  return isRecord(value) && isFraction(value['onset']) && isFraction(value['duration']);
}

function isFraction(value: unknown): boolean {
  return Array.isArray(value) && value.length === 2 && value.every(Number.isInteger) && value[1] > 0;
}

function isLayer(value: unknown): value is { changes: Fields } {
  return (
    isRecord(value) && isId(value['id']) && typeof value['name'] === 'string' && isRecord(value['changes'])
  );
}

function isPassage(value: unknown): value is Passage {
  if (!isRecord(value) || !isId(value['tuneId'])) return false;
  const key = passageKey(value as Passage) as string | undefined;
  const read = key === undefined ? null : passageFromKey(key);
  return read !== null && Object.entries(read).every(([name, part]) => value[name] === part);
}

function isTuning(value: unknown): boolean {
  return Array.isArray(value) && value.length === 5 && value.every((pitch) => Number.isInteger(pitch));
}

function isMoment(value: Fields): boolean {
  return isTime(value['at']) && isOffset(value['offsetMin']);
}

function isOffset(value: unknown): boolean {
  return Number.isInteger(value) && isWithin(value, OFFSET_MIN, OFFSET_MAX);
}

function isTime(value: unknown): value is number {
  return isWithin(value, TIME_MIN, TIME_MAX);
}

function isWithin(value: unknown, min: number, max: number): value is number {
  return typeof value === 'number' && value >= min && value <= max;
}

function isOneOf(words: readonly unknown[], value: unknown): boolean {
  return words.includes(value);
}

function isListOf<T>(value: unknown, isItem: (item: unknown) => item is T): value is T[] {
  return Array.isArray(value) && value.every(isItem);
}

function isRecord(value: unknown): value is Fields {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
