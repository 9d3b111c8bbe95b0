import { BOOK_NAME } from '$lib/store/book-name';
import type { RollingFolder } from '$lib/store/backup-notes';
import { app } from './app.svelte';
import { backupJob } from './backup-job';
import { backupEnding, canPack } from './backup-name';
import { momentNow } from './clock';
import { sentence } from './sentence';
import { unsaved } from './unsaved.svelte';

/** File System Access, which the platform's types do not have yet. */
interface PickerWindow {
  showDirectoryPicker(options: {
    id: string;
    mode: 'readwrite';
    startIn: 'documents';
  }): Promise<FileSystemDirectoryHandle>;
}
interface AskingHandle extends FileSystemDirectoryHandle {
  queryPermission(how: { mode: 'readwrite' }): Promise<PermissionState>;
  requestPermission(how: { mode: 'readwrite' }): Promise<PermissionState>;
}

/**
 * - `none`: no folder was chosen;
 * - `kept`: the copy is written after each sitting;
 * - `waits`: the browser wants to be asked again, which takes a touch.
 */
type RollingState = 'none' | 'kept' | 'waits';

/** A backup in a folder that the learner picked, written anew after each sitting. */
class RollingCopy {
  state: RollingState = $state('none');
  folderName: string | null = $state(null);
  fileName: string | null = $state(null);
  isWriting = $state(false);
  /** Why the last copy was not written. */
  trouble: string | null = $state(null);

  #folder: RollingFolder | null = null;

  /** Whether this browser lets a folder be picked. */
  get isPossible(): boolean {
    return 'showDirectoryPicker' in window;
  }

  /** Has the learner pick a folder, and writes the first copy. Call it within a user gesture. */
  async choose(): Promise<void> {
    try {
      const picker = window as unknown as PickerWindow;
      const options = { id: 'phrasewright-backup', mode: 'readwrite', startIn: 'documents' } as const;
      await this.keepIn(await picker.showDirectoryPicker(options));
    } catch (error) {
      // the learner closed the picker
      if (error instanceof DOMException && error.name === 'AbortError') return;
      this.trouble = sentence(error);
    }
  }

  /** Keeps the copy in a folder from now on. */
  async keepIn(folder: FileSystemDirectoryHandle): Promise<void> {
    this.#take(await app.backups.keepFolder(folder));
    await this.#lookAndWrite();
  }

  /** Asks the browser once more. Call it within a user gesture. */
  async allow(): Promise<void> {
    if (!this.#folder) return;
    try {
      await (this.#folder.folder as AskingHandle).requestPermission({ mode: 'readwrite' });
      await this.#lookAndWrite();
    } catch (error) {
      this.trouble = sentence(error);
    }
  }

  /** The copy stays where it is, and is no longer written. */
  async forget(): Promise<void> {
    this.#take(await app.backups.keepFolder(null));
    this.trouble = null;
    this.state = 'none';
  }

  /** Writes what is in no backup yet, where a folder was chosen; looks at how things stand in any case. */
  async keepUp(): Promise<void> {
    await unsaved.refresh();
    this.#take(await app.backups.folder());
    await this.#look();
    await this.#writeInTurn(async () => {
      await unsaved.refresh();
      const { sittings = 0, tunes = 0 } = unsaved.now ?? {};
      return sittings + tunes > 0;
    });
  }

  #take(kept: RollingFolder | null): void {
    this.#folder = kept;
    this.folderName = kept?.folder.name ?? null;
    this.fileName = kept && kept.fileName + backupEnding(canPack());
  }

  async #look(): Promise<void> {
    const answer = await (this.#folder?.folder as AskingHandle | undefined)?.queryPermission({
      mode: 'readwrite',
    });
    if (answer === undefined) this.state = 'none';
    else this.state = answer === 'granted' ? 'kept' : 'waits';
  }

  async #lookAndWrite(): Promise<void> {
    await this.#look();
    await this.#writeInTurn(() => Promise.resolve(true));
  }

  /** Of two tabs that saw a sitting close, one writes, and the other finds nothing left to do, or what was played meanwhile. */
  async #writeInTurn(isDue: () => Promise<boolean>): Promise<void> {
    if (this.state !== 'kept') return;
    await navigator.locks.request('rolling copy', async () => {
      if (await isDue()) await this.#write();
    });
  }

  async #write(): Promise<void> {
    const [folder, name] = [this.#folder?.folder, this.fileName];
    if (!folder || name === null) return;
    const now = momentNow();
    const job = { book: BOOK_NAME, now, name, isPacked: canPack(), folder };
    this.trouble = null;
    this.isWriting = true;
    try {
      const { note } = await unsaved.whileSaving(now, () =>
        backupJob(new AbortController().signal, 'keep', job),
      );
      await note();
    } catch (error) {
      this.trouble = sentence(error);
    } finally {
      this.isWriting = false;
    }
  }
}

export const rolling = new RollingCopy();
