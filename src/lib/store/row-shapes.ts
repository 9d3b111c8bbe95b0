import { isId } from '$lib/core/book/id';
import { TIME_MAX, TIME_MIN } from '$lib/core/book/limits';
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
    typeof value['minutes'] === 'number' &&
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
  const { kind, at, id, drillId, tempo, outcome } = value as Partial<Record<string, unknown>>;
  return (
    typeof at === 'number' &&
    typeof id === 'string' &&
    typeof drillId === 'string' &&
    typeof outcome === 'string' &&
    (kind === 'correction' || (kind === 'pass' && typeof tempo === 'number'))
  );
}

export function isTune(value: unknown): value is Tune {
  if (!isRecord(value) || !isId(value['id']) || !isTuning(value['tuning'])) return false;
  const { title, meter, goalTempo, form, parts, figures, layers, shelf = [], editedAt } = value;
  if (typeof title !== 'string' || typeof form !== 'string' || !isTime(editedAt)) return false;
  if (!isOneOf(METERS, meter) || !isWithin(goalTempo, TEMPO_MIN, TEMPO_MAX)) return false;
  if (!isListOf(figures, isFigure) || !isListOf(layers, isLayer) || layers.length === 0) return false;
  if (!isListOf(parts, isPart) || !isListOf(shelf, isRecord)) return false;
  const known = new Set(figures.map(({ id }) => id));
  const named = [
    ...parts.flatMap(({ measures }) => measures.map(({ figureId }) => figureId)),
    ...layers.flatMap(({ changes }) => Object.values(changes)),
  ];
  return named.every((id) => known.has(id));
}

function isPart(value: unknown): value is { measures: Fields[] } {
  return isRecord(value) && typeof value['name'] === 'string' && isListOf(value['measures'], isRecord);
}

function isFigure(value: unknown): value is { id: unknown } {
  return (
    isRecord(value) &&
    isId(value['id']) &&
    typeof value['beats'] === 'number' &&
    (value['strikes'] === null || isListOf(value['strikes'], isStrike))
  );
}

function isStrike(value: unknown): value is Fields {
  return isRecord(value) && Array.isArray(value['onset']) && Array.isArray(value['duration']);
}

function isLayer(value: unknown): value is { changes: Fields } {
  return isRecord(value) && isId(value['id']) && isRecord(value['changes']);
}

function isPassage(value: unknown): value is Passage {
  if (!isRecord(value) || !isId(value['tuneId'])) return false;
  const key = passageKey(value as Passage) as string | undefined;
  return key !== undefined && passageFromKey(key) !== null;
}

function isTuning(value: unknown): boolean {
  return Array.isArray(value) && value.length === 5 && value.every((pitch) => Number.isInteger(pitch));
}

function isMoment(value: Fields): boolean {
  return isTime(value['at']) && Number.isInteger(value['offsetMin']);
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
