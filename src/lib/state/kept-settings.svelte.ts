import {
  readSettings,
  settingRow,
  type SettingName,
  type SettingRow,
  type Settings,
} from '$lib/core/book/settings';
import { momentNow } from './clock';
import { sentence } from './sentence';
import { forgetSettingDraft, keepSettingDraft, settingDrafts } from './setting-drafts';
import { waitingWrites } from './waiting-writes.svelte';

/** What waits here, among all that waits. */
const NAME = 'settings';

/**
 * The settings as the learner set them: over what is on disk lies what is being written, so that nothing read
 * meanwhile shows an older choice. Writes keep their order, and of several of one setting only the last is written. What
 * cannot be written holds on this page and is tried again (waiting-writes).
 */
export class KeptSettings {
  #onDisk: readonly SettingRow[] = $state.raw([]);
  #waiting: readonly SettingRow[] = $state.raw(settingDrafts());
  /** Until the book has been read: what it held when it was last open. */
  #before: Settings | null = $state.raw(null);
  readonly now: Settings = $derived({
    ...(this.#before ?? readSettings(this.#onDisk)),
    ...Object.fromEntries(this.#waiting.map(({ key, value }) => [key, value])),
  });

  readonly #put: (row: SettingRow) => Promise<void>;
  #writing: Promise<void> = Promise.resolve();

  constructor(before: Settings | null, put: (row: SettingRow) => Promise<void>) {
    this.#before = before;
    this.#put = put;
  }

  /** Takes in what the book holds. */
  read(rows: readonly SettingRow[]): void {
    this.#before = null;
    this.#onDisk = rows;
  }

  /** Resolves when the setting, which is shown at once, is on disk or waits for room. Rejects when the book refuses it. */
  set<Name extends SettingName>(key: Name, value: Settings[Name]): Promise<void> {
    const row = settingRow(key, value, this.#nextEditOf(key));
    this.#waiting = [...this.#waiting.filter((other) => other.key !== key), row];
    keepSettingDraft(row);
    return this.flush().catch((error: unknown) => {
      if (isRefused(error)) throw error;
    });
  }

  /** Writes what is waiting, as the page before this one may have left it. */
  flush(): Promise<void> {
    this.#writing = this.#writing.catch(() => undefined).then(() => this.#writeAll());
    return this.#writing;
  }

  /** Forgets what is not on disk, as when the whole book is erased. */
  forget(): void {
    this.#waiting.forEach(forgetSettingDraft);
    this.#waiting = [];
  }

  /** Later than any change of it known here, for a merge takes the later one and clocks are set back. */
  #nextEditOf(key: SettingName): number {
    const known = [...this.#onDisk, ...this.#waiting].filter((row) => row.key === key);
    return Math.max(momentNow().at, ...known.map(({ editedAt }) => editedAt + 1));
  }

  async #writeAll(): Promise<void> {
    for (let row = this.#waiting[0]; row; row = this.#waiting[0]) await this.#write(row);
    waitingWrites.drop(NAME);
  }

  async #write(row: SettingRow): Promise<void> {
    try {
      const newer = this.#onDisk.find(({ key, editedAt }) => key === row.key && editedAt >= row.editedAt);
      if (!newer) await this.#put(row);
      if (!newer) this.#onDisk = [...this.#onDisk.filter(({ key }) => key !== row.key), row];
    } catch (error) {
      // what the book refuses for what it is would only stop those behind it
      if (isRefused(error)) this.#drop(row);
      else this.#wait(error);
      throw error;
    }
    this.#drop(row);
  }

  #wait(error: unknown): void {
    const why = sentence(error);
    const settings = this.#waiting;
    const write = (): Promise<void> => this.flush();
    waitingWrites.keep(NAME, { kind: 'setting', count: settings.length, why, settings, write });
  }

  #drop(row: SettingRow): void {
    this.#waiting = this.#waiting.filter((other) => other !== row);
    forgetSettingDraft(row);
  }
}

function isRefused(error: unknown): boolean {
  return error instanceof Error && 'kind' in error && error.kind === 'damaged';
}
