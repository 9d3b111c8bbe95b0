import type { Settings } from '$lib/core/book/settings';
import type { Drill, Hands, LogEntry, SealedSitting, Sitting } from '$lib/core/practice/records';
import { noteOver } from '$lib/core/practice/note-over';
import { isStale, lastMoment } from '$lib/core/practice/sitting';
import type { Moment } from '$lib/core/time/moment';
import type { Id } from '$lib/core/tune/tune';
import type { BookStore, OpenSitting } from '$lib/store/book-store';
import { DayHands } from './day-hands.svelte';
import { goOnAfter, logMoment, momentNow } from './clock';
import { nextId } from './ids';

/** The sitting that is open on this device, in whatever tab it was begun, and what is written into it. */
export class SittingAtHand {
  #open: OpenSitting | null = $state.raw(null);
  readonly #store: () => BookStore;
  readonly #settings: () => Settings;
  readonly #dayHands: DayHands;
  /** Entries that this tab has handed to the book, until they are read from it. */
  #handed: readonly Id[] = [];

  constructor(store: () => BookStore, settings: () => Settings, onchange: () => void) {
    this.#store = store;
    this.#settings = settings;
    this.#dayHands = new DayHands(() => settings().dayStartsAtHour, onchange);
  }

  get open(): OpenSitting | null {
    return this.#open;
  }

  /** How the hands feel: as the open sitting says, or as was said today for the next one. */
  get hands(): Hands {
    return this.#open?.sitting.hands ?? this.#dayHands.now;
  }

  /** Takes in the sitting as the book has it: `true` when another tab has played in it. */
  read(open: OpenSitting | null): boolean {
    const ids = open?.log.map(({ id }) => id) ?? [];
    const known = [...(this.#open?.log.map(({ id }) => id) ?? []), ...this.#handed];
    this.#handed = this.#handed.filter((id) => !ids.includes(id));
    this.#open = open;
    if (open && !this.isOver(open)) goOnAfter(lastMoment(open));
    return ids.some((id) => !known.includes(id));
  }

  /** Whether a sitting found open belongs to the past. */
  isOver(open: OpenSitting): boolean {
    return isStale(open, momentNow(), this.#settings().dayStartsAtHour);
  }

  /** Seals a sitting that is over, as of the last thing done in it: its record, or `null` when there was none or nothing in it. */
  async sealIfOver(): Promise<SealedSitting | null> {
    if (!this.#open || !this.isOver(this.#open)) return null;
    const sealed = await this.#store().seal(lastMoment(this.#open).at);
    this.#open = null;
    return sealed;
  }

  /** Forgets what is said of today, as when the whole book is erased. */
  forget(): void {
    this.#dayHands.forget();
  }

  async setHands(hands: Hands): Promise<void> {
    this.#dayHands.keep(hands);
    if (!this.#open) return;
    const { id } = this.#open.sitting;
    await this.#store().updateSitting(id, () => ({ hands }));
    this.#show(id, { hands });
  }

  /**
   * The line of notes of a sitting, open or closed meanwhile: an edit that began from `before` and came to `mine`, kept
   * beside what another tab wrote.
   */
  async setNote(id: Id, before: string, mine: string): Promise<void> {
    let note = '';
    await this.#store().updateSitting(id, (sitting) => {
      note = noteOver(sitting.note, before, mine.trim());
      return { note };
    });
    this.#show(id, { note });
  }

  #show(id: Id, patch: Partial<Pick<Sitting, 'note' | 'hands'>>): void {
    const open = this.#open;
    if (open?.sitting.id === id) this.#open = { ...open, sitting: { ...open.sitting, ...patch } };
  }

  /** Begins a drill in the open sitting, which another tab may have begun, or in one that begins now. */
  async beginDrill(drill: Omit<Drill, 'id' | 'sittingId' | keyof Moment>): Promise<Drill> {
    const { sitting } = await this.#begin();
    const begun: Drill = { ...logMoment(), ...drill, id: nextId(), sittingId: sitting.id };
    await this.#store().beginDrill(begun);
    const open = this.#open;
    if (open && !open.drills.some(({ id }) => id === begun.id)) {
      this.#open = { ...open, drills: [...open.drills, begun] };
    }
    return begun;
  }

  async #begin(): Promise<OpenSitting> {
    const { minutes, tuning } = this.#settings();
    const about = { minutes, tuning, hands: this.#dayHands.now, note: '', origin: 'own' as const };
    const sitting: Sitting = { ...logMoment(), id: nextId(), ...about };
    const open = await this.#store().joinSitting(sitting, (found) => this.isOver(found));
    this.read(open);
    return open;
  }

  /** Writes one entry of the log; resolves when it is on disk. Rejects with a StoreTrouble that says why it is not. */
  async record(entry: LogEntry): Promise<void> {
    this.#handed = [...this.#handed, entry.id];
    await this.#store().record(entry);
    const open = this.#open;
    const isOfIt = open?.drills.some(({ id }) => id === entry.drillId);
    if (open && isOfIt && !open.log.some(({ id }) => id === entry.id))
      this.#open = { ...open, log: [...open.log, entry] };
  }
}
