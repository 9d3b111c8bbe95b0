import { isMuch, tunesSince, type Unsaved } from '$lib/core/book/backup-due';
import type { Moment } from '$lib/core/time/moment';
import type { BackupNotes } from '$lib/store/backup-notes';
import { say } from '$lib/texts/backup-work';
import type { WrittenBackup } from '$lib/workers/backup-mail';
import { app } from './app.svelte';

/** What would be lost with this device, because no backup has it. */
class UnsavedWork {
  #notes: BackupNotes | null = $state.raw(null);

  /** `null` until it has been looked up. */
  readonly now: Unsaved | null = $derived(
    this.#notes && {
      sittings: this.#notes.sittings,
      tunes: tunesSince(app.tunes, this.#notes.savedAt),
      hasBackup: this.#notes.savedAt !== null,
    },
  );
  /** Enough to be spoken of on Today. */
  readonly isMuch = $derived(this.now !== null && isMuch(this.now, this.#notes?.hushedAt ?? 0));

  async refresh(): Promise<void> {
    await app.open();
    this.#notes = await app.backups.read();
  }

  /** Not now: Today speaks of it again when as much has come together once more. */
  async hush(): Promise<void> {
    if (!this.now) return;
    await app.backups.noteHushed(this.now.sittings + this.now.tunes);
    await this.refresh();
  }

  /**
   * Has a backup of the book written as it is now; `note` is for when the learner has it, and no sooner. Rejects when it does
   * not read back whole.
   */
  async whileSaving<Written extends WrittenBackup>(
    now: Moment,
    write: () => Promise<Written>,
  ): Promise<{ written: Written; note: () => Promise<void> }> {
    const { sittings } = await app.backups.read();
    const written = await write();
    if (written.damage.length > 0) {
      throw new Error(say.notWhole(written.damage.slice(0, 3).join('; ')));
    }
    const note = async (): Promise<void> => {
      await app.backups.noteSaved(now.at, sittings);
      await this.refresh();
    };
    return { written, note };
  }
}

export const unsaved = new UnsavedWork();
