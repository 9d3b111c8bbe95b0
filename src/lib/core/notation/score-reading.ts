import { meterShape, METERS, TEMPO_MAX, TEMPO_MIN, type Meter } from '../rhythm/meter';
import {
  compare,
  divide,
  equal,
  multiply,
  rational,
  subtract,
  toNumber,
  ZERO,
  add,
} from '../rhythm/rational';
import { BEATS_MAX, FORM_MAX, MEASURES_MAX, PARTS_MAX, TITLE_MAX } from '../tune/limits';
import type { MeasureDraft, PartDraft } from '../tune/make-tune';
import { compareNotes, type MelodyNote } from '../tune/melody';
import { findSharedMeasures } from '../tune/shared-measures';
import { compareStrikes, type Strike } from '../tune/strike';
import type { MeasureLabel, Pickup } from '../tune/tune';
import { refusedReading, Warnings, type Reading } from './reading';
import type { Score, ScoreMeter, ScoreNote } from './score';
import { cutBar, playedBars, withinBar, type Bar, type Playing } from './score-bars';

const LETTERS = [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'];
const LABEL_MAX = 60;

/** What the form plays under one letter: one section, or several unlike playings of it written out. */
interface Unit {
  bars: readonly Bar[];
  name: string | null;
}

/**
 * A score as measures to learn, in parts. Playings of a section that are equal are one part played so many times;
 * playings that differ (endings, what leads on) are written out as one longer part. `voice` is counted from 0. Measures
 * whose notes all have fingering become tab, others melody.
 */
export function readingOfScore(score: Score, voice = 0): Reading {
  const chosen = score.voices[voice] ?? score.voices[0];
  if (!chosen) return refusedReading('There are no notes in this source. Nothing was read.');
  const warnings = new Warnings();
  const meter = clickedMeter(score.meter, chosen.measures[0], warnings);
  const isTab = chosen.measures.some(({ notes }) => notes.some(({ fingering }) => fingering));
  const { pickup, playings } = playedBars(chosen, score.order);
  const units = unitsOf(
    playings.map((playing) => ({ ...playing, bars: cutLong(playing.bars, score.meter, meter) })),
  );
  const { form, parts } = partsOf(units, warnings);
  const drafts: PartDraft[] = parts.map(({ name, bars }) => ({
    name,
    measures: bars.map((bar) => draftOf(bar, meter, isTab, warnings)),
  }));
  if (drafts.length === 0) return refusedReading('There are no measures in this source. Nothing was read.');
  return {
    title: score.title?.slice(0, TITLE_MAX) ?? null,
    key: score.key,
    meter,
    tuning: score.tuning,
    capo: score.capo,
    tempo: score.tempo !== null && score.tempo >= TEMPO_MIN && score.tempo <= TEMPO_MAX ? score.tempo : null,
    form,
    parts: findSharedMeasures(drafts),
    pickup: pickup && pickupOf(pickup, meter, isTab, warnings),
    warnings: [...score.warnings, ...warnings.list()],
  };
}

/** The meter to click: the score's own, or the nearest one, in which its measures are crooked. */
function clickedMeter(
  meter: ScoreMeter | null,
  first: { line: number; column: number } | undefined,
  warnings: Warnings,
): Meter {
  if (!meter) return '4/4';
  const written = `${meter.count}/${meter.unit}`;
  const known = METERS.find((candidate) => candidate === written);
  if (known) return known;
  const nearest = nearestMeter(meter);
  const { line, column } = first ?? { line: 1, column: 1 };
  warnings.add(line, column, `${written} is clicked as ${nearest}, with measures of another length`);
  return nearest;
}

function nearestMeter({ count, unit }: ScoreMeter): Meter {
  if (unit === 2) return '2/2';
  if (unit >= 8) return count % 3 === 0 ? '6/8' : '2/4';
  return count % 3 === 0 ? '3/4' : '4/4';
}

/** Bars longer than a measure may be, and bars of free meter, in measures of the meter. */
function cutLong(bars: readonly Bar[], scoreMeter: ScoreMeter | null, meter: Meter): Bar[] {
  const { beat, beats } = meterShape(meter);
  const most = multiply(beat, rational(scoreMeter ? BEATS_MAX : 2 * beats));
  const piece = multiply(beat, rational(beats));
  return bars.flatMap((bar) => (compare(bar.length, most) > 0 ? cutBar(bar, piece) : [bar]));
}

function unitsOf(playings: readonly Playing[]): Unit[] {
  const units: Unit[] = [];
  for (let from = 0; from < playings.length;) {
    let to = from + 1;
    while (to < playings.length && playings[to]?.section === playings[from]?.section) to += 1;
    const run = playings.slice(from, to);
    const name = run[0]?.part ?? null;
    const isOne = run.every(({ bars }) => contentOf(bars) === contentOf(run[0]?.bars ?? []));
    if (isOne) units.push(...run.map(({ bars }) => ({ bars, name })));
    else units.push({ bars: run.flatMap(({ bars }) => bars), name });
    from = to;
  }
  return units;
}

function contentOf(bars: readonly Bar[]): string {
  return JSON.stringify(bars.map(({ length, notes }) => [length, notes]));
}

function partsOf(
  units: readonly Unit[],
  warnings: Warnings,
): { form: string; parts: { name: string; bars: readonly Bar[] }[] } {
  const parts: { name: string; bars: readonly Bar[] }[] = [];
  const letterOf = new Map<string, string>();
  let form = '';
  for (const { bars, name } of units) {
    const { line, column } = bars[0] ?? { line: 1, column: 1 };
    if (form.length === FORM_MAX) {
      warnings.add(
        line,
        column,
        `a form has ${FORM_MAX} letters at most; what is played from here on is left out`,
      );
      break;
    }
    const content = `${name ?? ''}:${contentOf(bars)}`;
    const letter = letterOf.get(content) ?? freeLetter(name, parts);
    if (letter === null) {
      warnings.add(line, column, `a tune has ${PARTS_MAX} parts at most; this one is left out`);
      continue;
    }
    if (!letterOf.has(content)) {
      if (bars.length > MEASURES_MAX) {
        warnings.add(
          line,
          column,
          `a part has ${MEASURES_MAX} measures at most; the rest of this one is left out`,
        );
      }
      parts.push({ name: letter, bars: bars.slice(0, MEASURES_MAX) });
      letterOf.set(content, letter);
    }
    form += letter;
  }
  return { form, parts };
}

function freeLetter(wanted: string | null, parts: readonly { name: string }[]): string | null {
  const used = new Set(parts.map(({ name }) => name));
  const named = wanted?.trim().charAt(0).toUpperCase() ?? '';
  if (LETTERS.includes(named) && !used.has(named)) return named;
  return LETTERS.find((letter) => !used.has(letter)) ?? null;
}

function draftOf(bar: Bar, meter: Meter, isTab: boolean, warnings: Warnings): MeasureDraft {
  const beats = halfBeats(bar, meter, warnings);
  const labels = labelsOf(bar.labels, multiply(meterShape(meter).beat, halves(beats)));
  return { beats, ...contentOfBar(bar, isTab), ...(labels.length > 0 ? { labels } : {}), sameAs: null };
}

/** The length of a bar in beats, on the next half beat. */
function halfBeats(bar: Bar, meter: Meter, warnings: Warnings): number {
  const exact = toNumber(divide(bar.length, meterShape(meter).beat)) * 2;
  const rounded = Math.max(1, Math.ceil(exact - 1e-9));
  if (Math.abs(rounded - exact) > 1e-9) {
    warnings.add(
      bar.line,
      bar.column,
      'this measure ends between two half beats; it was made longer to the next one',
    );
  }
  return rounded / 2;
}

function halves(beats: number): readonly [number, number] {
  return rational(Math.round(beats * 2), 2);
}

/** In a voice with fingering a measure without notes is a silent one; in a melody it is a rest. */
function contentOfBar({ notes, length }: Bar, isTab: boolean): Pick<MeasureDraft, 'strikes' | 'melody'> {
  const within = notes.map((note) => withinBar(note, length));
  if (isTab && within.every(({ fingering }) => fingering)) {
    return { strikes: strikesOf(within) };
  }
  return { strikes: null, melody: within.map(melodyNote).sort(compareNotes) };
}

function melodyNote({ onset, duration, pitch, tied }: ScoreNote): MelodyNote {
  return { onset, duration, pitch, ...(tied && { tied }) };
}

/** One strike a string and place: of two on one string the first is kept. */
function strikesOf(notes: readonly ScoreNote[]): Strike[] {
  const strikes = notes.flatMap(({ onset, duration, tied, fingering }): Strike[] =>
    fingering ? [{ onset, duration, ...fingering, ...(tied && { technique: 'tie' as const }) }] : [],
  );
  const sorted = strikes.sort(compareStrikes);
  return sorted.filter((strike, index) => {
    const before = sorted[index - 1];
    return !before || compareStrikes(before, strike) !== 0;
  });
}

function labelsOf(labels: readonly MeasureLabel[], length: readonly [number, number]): MeasureLabel[] {
  return labels
    .filter(({ onset, text }) => compare(onset, length) < 0 && text.trim() !== '')
    .map((label) => ({ ...label, text: label.text.trim().slice(0, LABEL_MAX) }))
    .sort((a, b) => compare(a.onset, b.onset));
}

/** A pickup on half beats: its notes end where the first full measure begins. */
function pickupOf(bar: Bar, meter: Meter, isTab: boolean, warnings: Warnings): Pickup | null {
  const { beat, beats: full } = meterShape(meter);
  const beats = Math.ceil(toNumber(divide(bar.length, beat)) * 2 - 1e-9) / 2;
  if (beats >= full) {
    warnings.add(
      bar.line,
      bar.column,
      'the first measure is too long for a pickup and too short for a measure; left out',
    );
    return null;
  }
  const early = subtract(multiply(beat, halves(beats)), bar.length);
  const shift = equal(early, ZERO)
    ? bar.notes
    : bar.notes.map((note) => ({ ...note, onset: add(note.onset, early) }));
  return { beats, ...contentOfBar({ ...bar, notes: shift, length: add(bar.length, early) }, isTab) };
}
