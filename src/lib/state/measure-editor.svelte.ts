import type { MeasureDraft } from '$lib/core/book/measure-draft';
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
import { melodyOnNeck } from '$lib/core/notation/melody-in-reach';
import { firstStep, redo, step, undo, type UndoSteps } from '$lib/core/notation/undo-steps';
import { compare, equal, ZERO, type Rational } from '$lib/core/rhythm/rational';
import { beatOf, type Meter } from '$lib/core/rhythm/meter';
import { changeMeasure, type MeasureChange } from '$lib/core/tune/change-measure';
import { boardMeasures, shownFigure } from '$lib/core/tune/layer-figures';
import { FRET_MAX } from '$lib/core/tune/limits';
import type { MelodyNote } from '$lib/core/tune/melody';
import { passesAfter, type PassesAfter } from '$lib/core/tune/passes-after';
import { figureOf } from '$lib/core/tune/places';
import { writingKey } from '$lib/core/tune/shared-measures';
import type { Id, Measure, Tune } from '$lib/core/tune/tune';
import type { Setup, StringNumber } from '$lib/core/tune/tuning';
import type { Technique } from '$lib/core/tune/strike';
import { app } from './app.svelte';
import { momentNow } from './clock';
import type { DraftKeeper } from './drafts';
import { nextId } from './ids';
import type { LeftOnMeasure, MeasureAt } from './measure-draft';

/** A second digit this soon after the first makes a number of two. */
const TWO_DIGITS_MS = 900;

/** One measure being written, from opening it to leaving it: every change can be undone, and is kept as a draft until saved. */
export class MeasureEditor {
  readonly at: MeasureAt;
  /** The draft of an earlier visit was taken up. */
  readonly isTakenUp: boolean;
  /** Passes played on the measure as the book has it; 0 until they are counted. */
  passes = $state(0);
  /** What a filling puts around a melody note. */
  pattern: Fill = $state('note-brush-drone');
  string: StringNumber = $state(1);
  #meter: Meter = $state.raw('4/4');
  #setup: Setup = $state.raw({ tuning: [0, 0, 0, 0, 0], capo: 0, spike: 0 });
  readonly #keeper: DraftKeeper<MeasureDraft>;
  /** What else was written here, earlier or in another window, until it is shown or let go. */
  #asides = $state.raw<readonly MeasureWriting[]>([]);
  #steps = $state.raw(firstStep<MeasureWriting>({ beats: 1, strikes: null, labels: [] }));
  #saved = $state.raw<MeasureWriting>({ beats: 1, strikes: null, labels: [] });
  /** What is on its way into the book from here. */
  #sent: MeasureWriting | null = null;
  #grains = $state.raw<readonly Grain[]>([]);
  #onset = $state.raw<Rational>(ZERO);
  #digit: { value: number; atMs: number } | null = null;

  readonly writing = $derived(this.#steps.present);
  /** What is set aside: the first of it. */
  readonly aside: MeasureWriting | null = $derived(this.#asides[0] ?? null);
  readonly canUndo = $derived(this.#steps.past.length > 0);
  readonly canRedo = $derived(this.#steps.future.length > 0);
  readonly places = $derived.by(() =>
    gridPlaces(this.#meter, this.writing.beats, this.#grains, takenOnsets(this.writing)),
  );
  /** The place in hand: the last one at or before where the learner went, for a measure may grow shorter. */
  readonly place: GridPlace | undefined = $derived(
    this.places.findLast(({ onset }) => compare(onset, this.#onset) <= 0) ?? this.places[0],
  );
  readonly note = $derived(this.place ? noteAt(this.writing, this.place.onset, this.string) : null);
  readonly hints = $derived(measureHints(this.writing, this.#meter, this.#setup));
  readonly contentChanged = $derived(writingKey(this.writing) !== writingKey(this.#saved));
  readonly isChanged = $derived(!isSameWriting(this.writing, this.#saved));

  constructor(tune: Tune, layerId: Id, measure: Measure, { drafts, keeper }: LeftOnMeasure) {
    this.at = { tuneId: tune.id, layerId, measureId: measure.id };
    this.#meter = tune.meter;
    this.#setup = tune;
    this.#keeper = keeper;
    keeper.hold();
    this.#saved = heldIn(tune, layerId, measure);
    this.#steps = firstStep(this.#saved);
    this.isTakenUp = this.#takeDrafts(drafts);
    this.#fitGrains([]);
    void this.#countPasses(figureOf(tune, layerId, measure).id);
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

  /** One step, unless it changes nothing. */
  edit(change: (writing: MeasureWriting) => MeasureWriting): void {
    const next = change(this.writing);
    if (!isSameWriting(next, this.writing)) this.#take(step(this.#steps, next));
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

  fill(where: 'here' | 'measure'): void {
    const { place, string, pattern } = this;
    const meter = this.#meter;
    if (!place) return;
    this.edit((writing) =>
      where === 'measure'
        ? fillMeasure(writing, meter, pattern)
        : fillUnit(writing, meter, unitOf(meter, writing.beats, place.onset), pattern, string),
    );
  }

  /** Writes the melody as tab, and gives the notes that it could not place. */
  proposeTab(): readonly MelodyNote[] {
    const { writing, outOfReach } = melodyOnNeck(this.writing, this.#setup);
    this.edit(() => writing);
    return outOfReach;
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
    const shown = this.places;
    this.#steps = steps;
    this.#digit = null;
    this.#fitGrains(shown);
    this.#keepDraft();
  }

  /** A beat that comes to hold something at a place that was not shown gets the grid that shows it. */
  #fitGrains(shown: readonly GridPlace[]): void {
    const onsets = takenOnsets(this.writing);
    const isNew = (onset: Rational): boolean => !shown.some((place) => equal(place.onset, onset));
    const beats = onsets.filter(isNew).map((onset) => beatOf(this.#meter, onset));
    if (beats.length === 0) return;
    const needed = grainsFor(this.#meter, this.writing.beats, onsets);
    this.#grains = needed.map((grain, beat) =>
      beats.includes(beat) ? grain : (this.#grains[beat] ?? 'usual'),
    );
  }

  // --- another window ------------------------------------------------------------------------------------

  /** Takes in what the book holds by now. What was written here on something else is set aside, never saved over it. */
  follow(tune: Tune, measure: Measure): void {
    const held = heldIn(tune, this.at.layerId, measure);
    this.#meter = tune.meter;
    this.#setup = tune;
    if (isSameWriting(held, this.#saved) || (this.#sent && isSameWriting(held, this.#sent))) return;
    const mine = this.writing;
    const isUnsaved = this.isChanged;
    this.#saved = held;
    this.#steps = firstStep(held);
    if (isUnsaved) this.#setAside(mine);
    this.#fitGrains([]);
    this.#keepDraft();
  }

  // --- the draft ----------------------------------------------------------------------------------------

  /** Shows what was set aside, as far as the measure has room for it; what was not saved takes its place. */
  showAside(): void {
    const [aside, ...rest] = this.#asides;
    if (!aside) return;
    // in one write with what is shown: a browser killed in between would have neither
    this.#asides = this.isChanged ? [...rest, this.writing] : rest;
    this.edit(() => setBeats(aside, this.#meter, aside.beats));
    this.#keepDraft();
  }

  letAsideGo(): void {
    this.#asides = this.#asides.slice(1);
    this.#keepDraft();
  }

  /** The measure is left; what was not saved waits for whoever opens it next. */
  leave(): void {
    this.#keeper.letGo();
  }

  /** True when a draft is gone on with: it was begun on what the book holds now, and says more than that. */
  #takeDrafts(drafts: readonly MeasureDraft[]): boolean {
    for (const { writing, base, asides } of drafts) {
      const fits = base === null || base === this.#base;
      if (writing && fits && !this.isChanged) this.#steps = step(this.#steps, writing);
      for (const other of writing ? [writing, ...asides] : asides) this.#setAside(other);
    }
    this.#keepDraft();
    return this.isChanged;
  }

  #setAside(writing: MeasureWriting): void {
    const known = [this.#saved, this.writing, ...this.#asides];
    if (!known.some((one) => isSameWriting(one, writing))) this.#asides = [...this.#asides, writing];
  }

  /** Why what is written is not kept until it is saved. */
  get draftTrouble(): string | null {
    return this.#keeper.trouble;
  }

  get #base(): string {
    return JSON.stringify([this.#meter, writingKey(this.#saved), this.#saved.labels]);
  }

  #keepDraft(): void {
    const asides = this.#asides;
    const writing = this.isChanged ? this.writing : null;
    const draft = writing || asides.length > 0 ? { writing, base: this.#base, asides } : null;
    // `draftTrouble` says why, and it is tried again
    this.#keeper.keep(draft).catch(() => undefined);
  }

  // --- keeping ------------------------------------------------------------------------------------------

  /** The tune as it would be with what is written. */
  preview(tune: Tune, scope: MeasureChange['scope']): Tune {
    const now = momentNow();
    const written = this.contentChanged ? changeMeasure(tune, this.#change(scope), nextId, now) : tune;
    return withLabels(written, this.at.measureId, this.writing.labels, now.at);
  }

  /** What saving does to the passes of the measure; `null` when there are none, or when it stays what it is. */
  passesAfter(tune: Tune, scope: MeasureChange['scope']): PassesAfter | null {
    return this.passes > 0 && this.contentChanged ? passesAfter(tune, this.#change(scope)) : null;
  }

  #change(scope: MeasureChange['scope']): MeasureChange {
    const { beats, strikes, melody } = this.writing;
    const { layerId, measureId } = this.at;
    return { layerId, measureId, content: { beats, strikes, ...(melody && { melody }) }, scope };
  }

  /**
   * Writes it into the book; rejects when the book refuses it, and the draft stays. False when another window had saved the
   * measure in the meantime: then what was written here is set aside.
   */
  async save(scope: MeasureChange['scope']): Promise<boolean> {
    const { writing } = this;
    const { tuneId, layerId, measureId } = this.at;
    const held = (tune: Tune): MeasureWriting | null => {
      const measure = boardMeasures(tune).find(({ id }) => id === measureId);
      return measure ? heldIn(tune, layerId, measure) : null;
    };
    try {
      await app.updateTune(tuneId, (tune) => {
        const before = held(tune);
        if (before && !isSameWriting(before, this.#saved)) return tune;
        const written = this.preview(tune, scope);
        this.#sent = held(written);
        return written;
      });
      if (!this.#sent) return false;
    } finally {
      this.#sent = null;
    }
    this.#saved = writing;
    // what was swapped for something else while it was being saved is in the book now
    this.#asides = this.#asides.filter((aside) => !isSameWriting(aside, writing));
    this.#keepDraft();
    const tune = app.tune(tuneId);
    if (tune) await this.#countPasses(shownFigure(tune, layerId, measureId));
    return true;
  }

  async #countPasses(figureId: Id): Promise<void> {
    try {
      // until the whole log has been read, a count would be too small
      await app.practice();
      const { passes } = await app.standingNow({ kind: 'figure', tuneId: this.at.tuneId, figureId });
      this.passes = passes;
    } catch {
      // without the log nothing is said of passes; they stay where they are all the same
      this.passes = 0;
    }
  }
}

function takenOnsets({ strikes, labels, melody = [] }: MeasureWriting): Rational[] {
  return [...(strikes ?? []), ...labels, ...melody].map(({ onset }) => onset);
}

function heldIn(tune: Tune, layerId: Id, measure: Measure): MeasureWriting {
  const { beats, strikes, melody } = figureOf(tune, layerId, measure);
  return { beats, strikes, ...(melody && { melody }), labels: measure.labels ?? [] };
}

function isSameWriting(a: MeasureWriting, b: MeasureWriting): boolean {
  return writingKey(a) === writingKey(b) && JSON.stringify(a.labels) === JSON.stringify(b.labels);
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
