import { draftProblems } from '$lib/core/tune/draft-problems';
import { draftOfReading } from '$lib/core/notation/reading-draft';
import { NOTATION_BYTES_MAX, type EntryOptions, type NotationEntry } from '$lib/core/notation/notation-file';
import type { ReadingWarning } from '$lib/core/notation/reading';
import type { Meter } from '$lib/core/rhythm/meter';
import { makeTune, type TuneDraft } from '$lib/core/tune/make-tune';
import { COMMON_TUNINGS, type Tuning } from '$lib/core/tune/tuning';
import type { Id, Tune } from '$lib/core/tune/tune';
import { say } from '$lib/texts/import-work';
import { NotationClient } from '$lib/workers/notation-client';
import type { NotationListing } from '$lib/workers/notation-mail';
import { app } from './app.svelte';
import { momentNow } from './clock';
import { nextId } from './ids';
import { sentence } from './sentence';

/** Tunes that can be looked at and added in one go. */
export const CHOSEN_MAX = 20;
const GOAL_TEMPO = 112;

/** A tune of the source as the learner looks at it before it is added. */
export interface ImportPreview {
  index: number;
  draft: TuneDraft;
  voices: readonly string[];
  voice: number;
  warnings: readonly ReadingWarning[];
  /** Typed tab that does not say its meter: the learner says it. */
  asksMeter: boolean;
}

/** A file or pasted text on its way into the book. Nothing is in the book before `add`. */
export class NotationImport {
  phase: 'asking' | 'reading' | 'choosing' | 'looking' | 'added' = $state('asking');
  /** Why there is nothing to look at, in one sentence. */
  trouble: string | null = $state(null);
  listing: NotationListing | null = $state.raw(null);
  previews: readonly ImportPreview[] = $state.raw([]);
  added: readonly Tune[] = $state.raw([]);
  readonly #client: NotationClient;
  #stop = new AbortController();
  #name = '';

  constructor(client = new NotationClient()) {
    this.#client = client;
  }

  async openFile(file: File): Promise<void> {
    if (file.size > NOTATION_BYTES_MAX) {
      this.startOver();
      this.trouble = say.tooLarge(NOTATION_BYTES_MAX / 1_000_000);
      return;
    }
    await this.#open(async () => new Uint8Array(await file.arrayBuffer()), file.name);
  }

  openText(text: string): Promise<void> {
    return this.#open(() => Promise.resolve(new TextEncoder().encode(text)), '');
  }

  /** Reads the chosen tunes in full, for the learner to look at. */
  async look(indices: readonly number[]): Promise<void> {
    await this.#work('choosing', async (signal) => {
      const previews: ImportPreview[] = [];
      for (const index of indices.slice(0, CHOSEN_MAX)) {
        previews.push(await this.#preview(signal, index, { voice: 0, meter: '2/4' }));
      }
      this.previews = previews;
      this.phase = 'looking';
    });
  }

  /** Reads one of the tunes again, by another voice or meter; what the learner has set stays. */
  async lookAgain(index: number, { voice, meter }: { voice?: number; meter?: Meter }): Promise<void> {
    const before = this.previews.find((preview) => preview.index === index);
    if (!before) return;
    await this.#work('looking', async (signal) => {
      const again = await this.#preview(signal, index, {
        voice: voice ?? before.voice,
        meter: meter ?? before.draft.meter,
        isMeterChosen: before.asksMeter,
      });
      const { title, tuning, goalTempo, capo, spike } = before.draft;
      this.#replace({ ...again, draft: { ...again.draft, title, tuning, goalTempo, capo, spike } });
    });
  }

  change(index: number, change: Partial<TuneDraft>): void {
    const before = this.previews.find((preview) => preview.index === index);
    if (before) this.#replace({ ...before, draft: { ...before.draft, ...change } });
  }

  setTuning(tuning: Tuning): void {
    this.previews = this.previews.map((preview) => ({
      ...preview,
      draft: { ...preview.draft, tuning },
    }));
  }

  /** Puts every tune that is being looked at into the book, in their order; says which were added where one fails. */
  async add(): Promise<void> {
    const kept = await this.#keep(this.previews.map(({ draft }) => draft));
    this.previews = this.previews.slice(kept);
  }

  /** Tunes known by their titles alone; all else they have from the draft. */
  async addTitles(draft: TuneDraft, titles: readonly string[]): Promise<void> {
    await this.#keep(titles.map((title) => ({ ...draft, title })));
  }

  /** How many are in the book now; none when one of them cannot be. */
  async #keep(drafts: readonly TuneDraft[]): Promise<number> {
    const problem = drafts.flatMap((draft) => draftProblems(draft))[0];
    this.trouble = problem?.sentence ?? null;
    if (problem) return 0;
    const added: Tune[] = [];
    try {
      for (const draft of drafts) {
        const tune = makeTune({ ...draft, title: draft.title.trim() }, nextId, momentNow());
        await app.saveTune(tune);
        added.push(tune);
      }
      this.phase = 'added';
    } catch (error) {
      const why = sentence(error);
      const count = added.length;
      this.trouble = count === 0 ? say.notAdded(why) : say.someAdded(count, drafts.length, why);
    }
    this.added = [...this.added, ...added];
    return added.length;
  }

  backToChoosing(): void {
    if ((this.listing?.entries.length ?? 0) < 2) return this.startOver();
    this.previews = [];
    this.trouble = null;
    this.phase = 'choosing';
  }

  /** Forgets the source and stops whatever is being read of it. */
  startOver(): void {
    this.#stop.abort();
    this.#client.close();
    this.listing = null;
    this.previews = [];
    this.added = [];
    this.trouble = null;
    this.phase = 'asking';
  }

  async #open(bytes: () => Promise<Uint8Array>, name: string): Promise<void> {
    this.startOver();
    this.#name = name.replace(/\.[^.]*$/, '');
    await this.#work('asking', async (signal) => {
      const opened = await this.#client.open(signal, await bytes(), name);
      if ('refusal' in opened) throw new Error(opened.refusal);
      this.listing = opened;
      this.phase = 'choosing';
      if (opened.entries.length === 1) await this.look([0]);
    });
  }

  async #preview(signal: AbortSignal, index: number, options: EntryOptions): Promise<ImportPreview> {
    const { meter, voice } = options;
    const { reading, voices } = await this.#client.read(signal, index, options);
    if (reading.parts.length === 0) {
      throw new Error(reading.warnings[0]?.message ?? say.nothingRead);
    }
    const draft = draftOfReading(reading, {
      title: this.#titleOf(this.listing?.entries[index]),
      meter,
      tuning: app.settings.tuning ?? COMMON_TUNINGS[0]?.tuning ?? [67, 50, 55, 59, 62],
      goalTempo: GOAL_TEMPO,
    });
    const asksMeter = this.listing?.format === 'tab' && reading.meter === null;
    return { index, draft, voices, voice, warnings: reading.warnings, asksMeter };
  }

  #titleOf(entry: NotationEntry | undefined): string {
    return entry?.title ?? this.#name;
  }

  #replace(changed: ImportPreview): void {
    this.previews = this.previews.map((preview) => (preview.index === changed.index ? changed : preview));
  }

  async #work(backTo: typeof this.phase, work: (signal: AbortSignal) => Promise<void>): Promise<void> {
    this.#stop.abort();
    this.#stop = new AbortController();
    const { signal } = this.#stop;
    this.trouble = null;
    // a tune that is read again stays in view, so that the hand stays where it was
    if (backTo !== 'looking') this.phase = 'reading';
    try {
      await work(signal);
    } catch (error) {
      if (signal.aborted) return;
      this.phase = backTo;
      this.trouble = sentence(error);
    }
  }
}

/** True where the book holds a tune of this title already. */
export function isTitleTaken(title: string, except?: Id): boolean {
  const wanted = title.trim().toLowerCase();
  return app.tunes.some(
    (tune) => tune.id !== except && tune.deletedAt === null && tune.title.trim().toLowerCase() === wanted,
  );
}
