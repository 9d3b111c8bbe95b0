import { say } from '../../texts/typed-tab';
import { METERS, TEMPO_MAX, TEMPO_MIN, type Meter } from '../rhythm/meter';
import { CAPO_MAX, KEY_MAX, TITLE_MAX } from '../tune/limits';
import { COMMON_TUNINGS, type Tuning } from '../tune/tuning';
import { readWrittenTuning } from '../tune/written-tuning';
import type { Warnings } from './reading';

/** What the lines of words over and between the systems say; `null` for what they do not. */
export interface TypedHeader {
  title: string | null;
  tuning: Tuning | null;
  capo: number | null;
  spike: number | null;
  key: string | null;
  meter: Meter | null;
  tempo: number | null;
  form: string | null;
  /** The line that the form stands on. */
  formLine: number;
}

interface TextLine {
  line: number;
  text: string;
}

/** Words that open a line of the header, and the field that follows them (common practice). */
const LABELS: Readonly<Record<string, string>> = {
  title: 'title',
  tune: 'title',
  tuning: 'tuning',
  capo: 'capo',
  spike: 'spike',
  key: 'key',
  meter: 'meter',
  time: 'meter',
  'time signature': 'meter',
  tempo: 'tempo',
  goal: 'tempo',
  form: 'form',
  layer: 'said',
  marks: 'said',
  'no tab': 'said',
  source: 'said',
  composer: 'said',
  by: 'said',
  'tabbed by': 'said',
};

const LINE_MAX = 300;

/** The label of a header line and what it says; without a colon only where what follows can be read. */
function labelled(text: string): { field: string; value: string } | null {
  const match = /^([a-z]+(?: [a-z]+)?)\s*[:=]\s*(.*)$/i.exec(text);
  const field = match && LABELS[(match[1] ?? '').toLowerCase()];
  if (match && field) return { field, value: (match[2] ?? '').trim() };
  const loose = /^(capo|tuning|key)\b\s*(?:of|on|at|in)?\s+(\S.*)$/i.exec(text);
  const found = loose && { field: (loose[1] ?? '').toLowerCase(), value: (loose[2] ?? '').trim() };
  return found && IS_READ[found.field]?.(found.value) ? found : null;
}

const IS_READ: Readonly<Record<string, (value: string) => boolean>> = {
  capo: (value) => /^(?:fret )?(?:\d|no)/i.test(value) && fretsIn(value) !== null,
  tuning: (value) => tuningIn(value) !== null,
  key: (value) => /^[A-G](?:#|b|\s|$)/.test(value),
};

/** The things that one line says: `gDGBD, capo 2` says two. */
function sayings(text: string): string[] {
  const line = text.slice(0, LINE_MAX).trim();
  const whole = labelled(line)?.field;
  if (whole === 'title' || whole === 'said') return [line];
  const parts = line.split(/[,;()]/).map((part) => part.trim());
  return parts.slice(1).some((part) => labelled(part)) ? parts.filter((part) => part !== '') : [line];
}

/** True for a line that says something about the tune in a way that is known here: never its title. */
export function isHeaderLine(text: string): boolean {
  return sayings(text).every((saying) => {
    const found = labelled(saying);
    return found ? found.field !== 'title' : meterIn(saying) !== null || bareTuning(saying) !== null;
  });
}

/** Reads the lines of words. `above` are those over the first system, among which the title stands. */
export function typedHeader(
  above: readonly TextLine[],
  all: readonly TextLine[],
  warnings: Warnings,
): TypedHeader {
  const header: TypedHeader = {
    ...{ title: null, tuning: null, capo: null, spike: null, key: null },
    ...{ meter: null, tempo: null, form: null, formLine: 1 },
  };
  for (const { line, text } of all) {
    for (const saying of sayings(text)) {
      const found = labelled(saying);
      const unread = found ? readField(header, found.field, found.value) : readBare(header, saying);
      if (found?.field === 'form') header.formLine = line;
      if (unread) warnings.add(line, 1, unread);
    }
  }
  header.title ??= titleOf(above);
  return header;
}

function titleOf(above: readonly TextLine[]): string | null {
  const line = above.find(({ text }) => !isHeaderLine(text));
  return line ? line.text.slice(0, TITLE_MAX) || null : null;
}

/** Gives what is wrong with the value, where something is. The first line that says a thing counts. */
function readField(header: TypedHeader, field: string, value: string): string | null {
  switch (field) {
    case 'title':
      header.title ??= value.slice(0, TITLE_MAX) || null;
      return null;
    case 'key':
      header.key ??= value.slice(0, KEY_MAX) || null;
      return null;
    case 'tuning':
      header.tuning ??= tuningIn(value);
      return header.tuning ? null : say.unknownTuning(value.slice(0, 40));
    case 'meter':
      header.meter ??= meterIn(value);
      return header.meter ? null : say.unknownMeter(value.slice(0, 40));
    case 'capo':
      header.capo ??= fretsIn(value);
      return header.capo === null ? say.noCapo(value.slice(0, 40)) : null;
    case 'spike':
      header.spike ??= fretsIn(value);
      return header.spike === null ? say.noSpike(value.slice(0, 40)) : null;
    case 'tempo':
      header.tempo ??= tempoIn(value);
      return header.tempo === null ? say.noTempo(value.slice(0, 40)) : null;
    case 'form':
      header.form ??= value.replace(/[\s-]+/g, '').toUpperCase() || null;
      return null;
    default:
      return null;
  }
}

function readBare(header: TypedHeader, text: string): null {
  header.meter ??= meterIn(text);
  header.tuning ??= bareTuning(text) ?? tuningAmong(text);
  return null;
}

function meterIn(text: string): Meter | null {
  const bare = text.trim().replace(/\s*(?:time|meter)$/i, '');
  if (bare === 'C') return '4/4';
  if (bare === 'C|' || /^cut$/i.test(bare)) return '2/2';
  return METERS.find((meter) => meter === bare.replace(/\s/g, '')) ?? null;
}

function fretsIn(text: string): number | null {
  if (/^(?:no|none|-)\b/i.test(text) || text === '-') return 0;
  const frets = /\d+/.exec(text)?.[0];
  return frets && Number(frets) <= CAPO_MAX ? Number(frets) : null;
}

function tempoIn(text: string): number | null {
  const tempo = Number(/\d+(?!.*\d)/.exec(text.slice(0, 40))?.[0] ?? NaN);
  return tempo >= TEMPO_MIN && tempo <= TEMPO_MAX ? tempo : null;
}

/** A tuning after its label: letters from the fifth string, or what players call it. */
function tuningIn(text: string): Tuning | null {
  const bare = text.replace(/\(.*?\)/g, ' ').trim();
  const called = bare.replace(/\b(?:open|tuning|standard)\b/gi, ' ').trim();
  return (
    tuningAmong(text) ??
    readWrittenTuning(bare) ??
    COMMON_TUNINGS.find((one) => one.called.toLowerCase() === called.toLowerCase())?.tuning ??
    null
  );
}

/** A line that is nothing but a tuning: `gDGBD`, `sawmill tuning`. */
function bareTuning(text: string): Tuning | null {
  if (/\btuning$/i.test(text.trim())) return tuningIn(text);
  return COMMON_TUNINGS.find(({ name }) => name === text.trim())?.tuning ?? null;
}

/** A common tuning that stands among other words. */
function tuningAmong(text: string): Tuning | null {
  const words = text.split(/[\s,:;()]+/);
  return COMMON_TUNINGS.find(({ name }) => words.includes(name))?.tuning ?? null;
}
