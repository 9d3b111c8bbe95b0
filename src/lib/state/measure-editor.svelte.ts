import {
  clearPlace,
  noteAt,
  putNote,
  setBeats,
  takeNote,
  type MeasureWriting,
  type NoteChange,
} from '$lib/core/notation/measure-edit';
import { grainsFor, gridPlaces, type Grain, type GridPlace } from '$lib/core/notation/measure-grid';
import { measureHints } from '$lib/core/notation/measure-hints';
import { fillMeasure, fillUnit, unitOf, type Fill } from '$lib/core/notation/measure-patterns';
import { firstStep, redo, step, undo, type UndoSteps } from '$lib/core/notation/undo-steps';
import { compare, equal, ZERO, type Rational } from '$lib/core/rhythm/rational';
import type { Meter } from '$lib/core/rhythm/meter';
import { changeMeasure } from '$lib/core/tune/change-measure';
import { FRET_MAX } from '$lib/core/tune/limits';
import { figureOf } from '$lib/core/tune/places';
import { contentKey } from '$lib/core/tune/shared-measures';
import type { Id, Measure, Tune } from '$lib/core/tune/tune';
import type { StringNumber } from '$lib/core/tune/tuning';
import type { Technique } from '$lib/core/tune/strike';
import { app } from './app.svelte';
import { momentNow } from './clock';
import { nextId } from './ids';
import { forgetMeasureDraft, keepMeasureDraft, measureDraft, type MeasureAt } from './measure-draft';

/** A second digit this soon after the first makes a number of two. */
const TWO_DIGITS_MS = 900;

/** One measure being written, from opening it to leaving it: every change can be undone, and is kept as a draft until saved. */
export class MeasureEditor {
  readonly at: MeasureAt;
  /** The draft of an earlier visit was taken up. */
  readonly isTakenUp: boolean;
  #meter: Meter = $state.raw('4/4');
  #steps = $state.raw(firstStep<MeasureWriting>({ beats: 1, strikes: null, labels: [] }));
  #saved = $state.raw<MeasureWriting>({ beats: 1, strikes: null, labels: [] });
  #grains = $state.raw<readonly Grain[]>([]);
  #onset = $state.raw<Rational>(ZERO);
  string: StringNumber = $state(1);
  #digit: { value: number; atMs: number } | null = null;

  readonly writing = $derived(this.#steps.present);
  readonly canUndo = $derived(this.#steps.past.length > 0);
  readonly canRedo = $derived(this.#steps.future.length > 0);
  readonly places = $derived.by(() => {
    const { strikes, labels, beats } = this.writing;
    const taken = [...(strikes ?? []), ...labels].map(({ onset }) => onset);
    return gridPlaces(this.#meter, beats, this.#grains, taken);
  });
  /** The place in hand: the last one at or before where the learner went, for a measure may grow shorter. */
  readonly place: GridPlace | undefined = $derived(
    this.places.findLast(({ onset }) => compare(onset, this.#onset) <= 0) ?? this.places[0],
  );
  readonly note = $derived(this.place ? noteAt(this.writing, this.place.onset, this.string) : null);
  readonly hints = $derived(measureHints(this.writing, this.#meter));
  readonly contentChanged = $derived(asText(this.writing, false) !== asText(this.#saved, false));
  readonly isChanged = $derived(asText(this.writing, true) !== asText(this.#saved, true));

  constructor(tune: Tune, layerId: Id, measure: Measure) {
    this.at = { tuneId: tune.id, layerId, measureId: measure.id };
    this.#meter = tune.meter;
    const { beats, strikes, melody } = figureOf(tune, layerId, measure);
    this.#saved = { beats, strikes, ...(melody && { melody }), labels: measure.labels ?? [] };
    const draft = measureDraft(this.at);
    this.#steps = firstStep(this.#saved);
    this.isTakenUp = draft !== null;
    if (draft) this.#steps = step(this.#steps, draft);
    this.#fitGrains();
  }

  // --- where --------------------------------------------------------------------------------------------

  go(onset: Rational, string: StringNumber): void {
    this.#onset = onset;
    this.string = string;
    this.#digit = null;
  }

  /** To the neighbouring place or string; stays at an edge. */
  move(places: number, strings: number): void {
    const index = this.places.findIndex((place) => place === this.place);
    const next = this.places[Math.min(this.places.length - 1, Math.max(0, index + places))];
    const string = Math.min(5, Math.max(1, this.string + strings)) as StringNumber;
    if (next) this.go(next.onset, string);
  }

  get grain(): Grain {
    return this.#grains[this.place?.beat ?? 0] ?? 'usual';
  }

  setGrain(grain: Grain): void {
    const beat = this.place?.beat ?? 0;
    const grains = Array.from(
      { length: Math.ceil(this.writing.beats) },
      (_, i) => this.#grains[i] ?? 'usual',
    );
    grains[beat] = grain;
    this.#grains = grains;
  }

  // --- what ---------------------------------------------------------------------------------------------

  edit(change: (writing: MeasureWriting) => MeasureWriting): void {
    this.#take(step(this.#steps, change(this.writing)));
  }

  /** The note in hand, changed; put there first where there is none. */
  put(change: NoteChange): void {
    const { place, string } = this;
    if (place) this.edit((writing) => putNote(writing, this.#meter, { onset: place.onset, string }, change));
  }

  /** A drone is the short string's, whatever string is in hand. */
  sound(technique: Technique): void {
    if (technique === 'drone') this.string = 5;
    this.put({ technique });
  }

  /** One digit of a fret as it is typed at a time, in milliseconds. */
  type(digit: number, atMs: number): void {
    const before = this.#digit;
    const both = before && atMs - before.atMs < TWO_DIGITS_MS ? before.value * 10 + digit : null;
    const fret = both !== null && both <= FRET_MAX ? both : digit;
    this.put({ fret });
    this.#digit = { value: fret, atMs };
  }

  takeOff(): void {
    const { place, string } = this;
    if (place) this.edit((writing) => takeNote(writing, this.#meter, place.onset, string));
  }

  rest(): void {
    const { place } = this;
    if (place) this.edit((writing) => clearPlace(writing, this.#meter, place.onset));
  }

  fill(fill: Fill, where: 'here' | 'measure'): void {
    const { place, string } = this;
    const meter = this.#meter;
    if (!place) return;
    this.edit((writing) =>
      where === 'measure'
        ? fillMeasure(writing, meter, fill)
        : fillUnit(writing, meter, unitOf(meter, writing.beats, place.onset), fill, string),
    );
  }

  setBeats(beats: number): void {
    this.edit((writing) => setBeats(writing, this.#meter, beats));
  }

  undo(): void {
    this.#take(undo(this.#steps));
  }

  redo(): void {
    this.#take(redo(this.#steps));
  }

  #take(steps: UndoSteps<MeasureWriting>): void {
    if (steps === this.#steps) return;
    this.#steps = steps;
    this.#digit = null;
    this.#fitGrains();
    if (this.isChanged) keepMeasureDraft(this.at, this.writing);
    else forgetMeasureDraft(this.at);
  }

  /** A beat that holds something finer than its grid gets the grid that shows it. */
  #fitGrains(): void {
    const { strikes, labels, beats } = this.writing;
    const onsets = [...(strikes ?? []), ...labels].map(({ onset }) => onset);
    const needed = grainsFor(this.#meter, beats, onsets);
    const shown = gridPlaces(this.#meter, beats, this.#grains, []);
    const hasAll = onsets.every((onset) => shown.some((place) => equal(place.onset, onset)));
    if (!hasAll) this.#grains = needed;
  }

  // --- keeping ------------------------------------------------------------------------------------------

  /** The tune as it would be with what is written. */
  preview(tune: Tune, scope: 'shared' | 'this'): Tune {
    const { beats, strikes, melody, labels } = this.writing;
    const now = momentNow();
    const { layerId, measureId } = this.at;
    const content = { beats, strikes, ...(melody && { melody }) };
    const written = this.contentChanged
      ? changeMeasure(tune, { layerId, measureId, content, scope }, nextId, now)
      : tune;
    return withLabels(written, measureId, labels, now.at);
  }

  /** Writes it into the book; rejects when the book refuses it, and the draft stays. */
  async save(scope: 'shared' | 'this'): Promise<void> {
    const { writing } = this;
    await app.updateTune(this.at.tuneId, (tune) => this.preview(tune, scope));
    this.#saved = writing;
    forgetMeasureDraft(this.at);
  }
}

function asText({ labels, ...content }: MeasureWriting, withWords: boolean): string {
  return JSON.stringify([content.beats, contentKey(content), withWords && labels]);
}

function withLabels(tune: Tune, measureId: Id, labels: MeasureWriting['labels'], at: number): Tune {
  const parts = tune.parts.map((part) => ({
    ...part,
    measures: part.measures.map((measure) => {
      if (measure.id !== measureId) return measure;
      const { labels: old = [], ...rest } = measure;
      if (JSON.stringify(old) === JSON.stringify(labels)) return measure;
      return { ...rest, ...(labels.length > 0 && { labels }), editedAt: at };
    }),
  }));
  return { ...tune, parts };
}
