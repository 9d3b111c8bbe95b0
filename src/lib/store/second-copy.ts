/// <reference lib="dom.asynciterable" />
import type { Book } from '$lib/core/book/book';
import { isSettingRow, type SettingRow } from '$lib/core/book/settings';
import type { Drill, LogEntry, SealedSitting, Sitting } from '$lib/core/practice/records';
import type { Tune } from '$lib/core/tune/tune';
import type { Draft } from './drafts';
import { SCHEMA_VERSION } from './migrations';
import { isDrill, isEntry, isSealed, isSitting, isTune } from './row-shapes';

/** Says which book the copy is of, and up to which change. */
export interface Marker {
  bookId: string;
  revision: number;
  /** Erasing had begun: whatever is still here goes. */
  isErasing: boolean;
  /** Of the tables, and so of the records, that the app which wrote it last knew. */
  version: number;
}

/** The journal of a sitting that was open when it was written. */
export interface Journal {
  sittingId: string;
  sitting: Sitting | null;
  drills: Drill[];
  log: LogEntry[];
}

const MARKER = 'marker.json';
const SETTINGS = 'settings.json';

/**
 * The second copy of the book, in the origin private file system (a killed browser can lose its whole IndexedDB,
 * PLATFORM.md). Under a folder of the book's name:
 * - `marker.json`, by which an older app leaves alone what a newer one wrote;
 * - `settings.json`, `tunes/ID.json`, and `drafts/NAME.json`, each replaced whole;
 * - `sittings/YYYY-MM.jsonl`, one sealed sitting a line, appended; of two lines with one id the later holds;
 * - `open/SITTING/`, the journal: `sitting.json`, `drill-ID.json` and `entry-ID.json`, one small file each: twice as
 *   fast as appending to one, two tabs cannot overwrite one another, and a torn write harms nothing else.
 * A writable file replaces the old one only when it is closed, so every file is whole or absent (or empty, if new).
 * Callers hold the book's lock around everything but the journal and the drafts.
 */
export class SecondCopy {
  readonly #name: string;
  #folder: FileSystemDirectoryHandle;

  private constructor(name: string, folder: FileSystemDirectoryHandle) {
    this.#name = name;
    this.#folder = folder;
  }

  /** `null` where there is no such file system, or none to write from the page. */
  static async open(name: string): Promise<SecondCopy | null> {
    if (
      typeof FileSystemFileHandle === 'undefined' ||
      !('createWritable' in FileSystemFileHandle.prototype)
    ) {
      return null;
    }
    try {
      const root = await navigator.storage.getDirectory();
      return new SecondCopy(name, await root.getDirectoryHandle(name, { create: true }));
    } catch {
      // a private window, or storage switched off: IndexedDB goes on alone and the store says so
      return null;
    }
  }

  async readMarker(): Promise<Marker | null> {
    const value = await readJson(this.#folder, MARKER);
    const { bookId, revision, isErasing, version } = (value ?? {}) as Partial<Record<keyof Marker, unknown>>;
    if (typeof bookId !== 'string' || typeof revision !== 'number') return null;
    // the first apps wrote none
    return { bookId, revision, isErasing: isErasing === true, version: Number(version ?? 0) };
  }

  async writeMarker(marker: Omit<Marker, 'version'>): Promise<void> {
    await writeFile(this.#folder, MARKER, JSON.stringify({ ...marker, version: SCHEMA_VERSION }));
  }

  /** Moves the marker on by one change. A gap means that a change was missed: the marker then stays behind, and the next start mends it. */
  async advance(bookId: string, revision: number): Promise<void> {
    const marker = await this.readMarker();
    if (marker?.bookId !== bookId || marker.revision !== revision - 1) return;
    await this.writeMarker({ bookId, revision, isErasing: false });
  }

  async writeTunes(tunes: readonly Tune[]): Promise<void> {
    const folder = await this.#sub('tunes');
    for (const tune of tunes) await writeFile(folder, `${tune.id}.json`, JSON.stringify(tune));
  }

  async writeSettings(rows: readonly SettingRow[]): Promise<void> {
    await writeFile(this.#folder, SETTINGS, JSON.stringify(rows));
  }

  async appendSittings(sittings: readonly SealedSitting[]): Promise<void> {
    await this.appendLines(byMonth(sittings));
  }

  /** `months`: as `addLine` makes them. */
  async appendLines(months: MonthLines): Promise<void> {
    const folder = await this.#sub('sittings');
    for (const [name, lines] of months) await appendFile(folder, name, lines);
  }

  /**
   * Everything but the journals and the marker, replaced by a book. New files are in place before old ones go, so that
   * a browser killed in between loses nothing.
   */
  async replace(book: Book): Promise<void> {
    await this.writeTunes(book.tunes);
    const months = byMonth(book.sittings);
    const folder = await this.#sub('sittings');
    for (const [name, lines] of months) await writeFile(folder, name, lines);
    await this.writeSettings(book.settings);
    const tunes = await this.#sub('tunes');
    const tuneFiles = new Set(book.tunes.map(({ id }) => `${id}.json`));
    for (const [name] of await files(tunes)) if (!tuneFiles.has(name)) await removeIfThere(tunes, name);
    for (const [name] of await files(folder)) if (!months.has(name)) await removeIfThere(folder, name);
  }

  /** Takes whole records out of the copy. */
  async remove(tuneIds: readonly string[], sittings: readonly SealedSitting[]): Promise<void> {
    const tunes = await this.#sub('tunes');
    for (const id of tuneIds) await removeIfThere(tunes, `${id}.json`);
    const gone = new Set(sittings.map(({ id }) => id));
    const folder = await this.#sub('sittings');
    for (const [name, file] of await files(folder)) {
      const lines = sealedLines(await textOf(file));
      const kept = lines.filter(({ id }) => !gone.has(id));
      if (kept.length === lines.length) continue;
      await writeFile(folder, name, kept.map((sitting) => `${JSON.stringify(sitting)}\n`).join(''));
    }
  }

  /** The book of the copy, without journals. A file or line that cannot be read is passed over. */
  async readBook(): Promise<Book> {
    const tuneFiles = await files(await this.#sub('tunes'));
    const tuneTexts = await Promise.all(tuneFiles.map(([, file]) => textOf(file)));
    const tunes = tuneTexts.map(parseJson).filter(isTune);
    const sittings = new Map<string, SealedSitting>();
    for (const [, file] of await files(await this.#sub('sittings'))) {
      for (const sitting of sealedLines(await textOf(file))) sittings.set(sitting.id, sitting);
    }
    const rows = await readJson(this.#folder, SETTINGS);
    const settings = Array.isArray(rows) ? rows.filter(isSettingRow) : [];
    return { tunes, sittings: [...sittings.values()], settings };
  }

  async noteSitting(sitting: Sitting): Promise<void> {
    await this.#note(sitting.id, 'sitting.json', sitting);
  }

  async noteDrill(drill: Drill): Promise<void> {
    await this.#note(drill.sittingId, `drill-${drill.id}.json`, drill);
  }

  async noteEntry(sittingId: string, entry: LogEntry): Promise<void> {
    await this.#note(sittingId, `entry-${entry.id}.json`, entry);
  }

  /** The ids of the sittings that have a journal. */
  async journalNames(): Promise<string[]> {
    const names: string[] = [];
    for await (const name of (await this.#sub('open')).keys()) names.push(name);
    return names;
  }

  async readJournals(): Promise<Journal[]> {
    const journals: Journal[] = [];
    for await (const [sittingId, handle] of (await this.#sub('open')).entries()) {
      if (isFolder(handle)) journals.push(await readJournal(sittingId, handle));
    }
    return journals;
  }

  async removeJournal(sittingId: string): Promise<void> {
    await removeIfThere(await this.#sub('open'), sittingId);
  }

  /** What was written and not saved, under names that begin so; `null` for one that cannot be read. */
  async readDrafts(start: string): Promise<Draft[]> {
    const found = (await files(await this.#sub('drafts'))).filter(([name]) => name.startsWith(start));
    return Promise.all(
      found.map(async ([name, file]) => ({
        name: name.replace(/\.json$/, ''),
        kept: parseJson(await textOf(file)),
      })),
    );
  }

  /** With `null`, no draft is kept under the name. */
  async writeDraft(name: string, draft: unknown): Promise<void> {
    const folder = await this.#sub('drafts');
    if (draft === null) await removeIfThere(folder, `${name}.json`);
    else await writeFile(folder, `${name}.json`, JSON.stringify(draft));
  }

  /** Removes every file. The folder stays, empty. */
  async erase(): Promise<void> {
    const names: string[] = [];
    for await (const name of this.#folder.keys()) names.push(name);
    // the marker goes last: it says that erasing had begun
    for (const name of names.filter((one) => one !== MARKER)) await removeIfThere(this.#folder, name);
    await removeIfThere(this.#folder, MARKER);
  }

  async #note(sittingId: string, name: string, record: unknown): Promise<void> {
    const folder = await (await this.#sub('open')).getDirectoryHandle(sittingId, { create: true });
    await writeFile(folder, name, JSON.stringify(record));
  }

  async #sub(name: string): Promise<FileSystemDirectoryHandle> {
    try {
      return await this.#folder.getDirectoryHandle(name, { create: true });
    } catch (error) {
      if (!(error instanceof DOMException) || error.name !== 'NotFoundError') throw error;
      // the folder itself was removed since, as when the browser clears the site's storage under an open page
      const root = await navigator.storage.getDirectory();
      this.#folder = await root.getDirectoryHandle(this.#name, { create: true });
      return this.#folder.getDirectoryHandle(name, { create: true });
    }
  }
}

async function readJournal(sittingId: string, folder: FileSystemDirectoryHandle): Promise<Journal> {
  const journal: Journal = { sittingId, sitting: null, drills: [], log: [] };
  const texts = await Promise.all((await files(folder)).map(([, file]) => textOf(file)));
  for (const record of texts.map(parseJson)) {
    if (isEntry(record)) journal.log.push(record);
    else if (isDrill(record)) journal.drills.push(record);
    else if (isSitting(record) && record.id === sittingId) journal.sitting = record;
  }
  return journal;
}

/** Files by name, which orders ids by time. */
async function files(folder: FileSystemDirectoryHandle): Promise<[string, FileSystemFileHandle][]> {
  const found: [string, FileSystemFileHandle][] = [];
  for await (const [name, handle] of folder.entries()) {
    // Chromium keeps an unfinished write in a file of this ending beside the real one
    if (isFile(handle) && !name.endsWith('.crswap')) found.push([name, handle]);
  }
  return found.sort(([a], [b]) => (a < b ? -1 : 1));
}

function isFile(handle: FileSystemHandle): handle is FileSystemFileHandle {
  return handle.kind === 'file';
}

function isFolder(handle: FileSystemHandle): handle is FileSystemDirectoryHandle {
  return handle.kind === 'directory';
}

async function textOf(file: FileSystemFileHandle): Promise<string> {
  return (await file.getFile()).text();
}

/** File name of a month -> its sittings, one a line. */
export type MonthLines = Map<string, string>;

export function addLine(months: MonthLines, sitting: SealedSitting): void {
  const name = `${new Date(sitting.at).toISOString().slice(0, 7)}.jsonl`;
  months.set(name, `${months.get(name) ?? ''}${JSON.stringify(sitting)}\n`);
}

function byMonth(sittings: readonly SealedSitting[]): MonthLines {
  const months: MonthLines = new Map();
  for (const sitting of sittings) addLine(months, sitting);
  return months;
}

function sealedLines(text: string): SealedSitting[] {
  return text.split('\n').map(parseJson).filter(isSealed);
}

async function readJson(folder: FileSystemDirectoryHandle, name: string): Promise<unknown> {
  try {
    return parseJson(await textOf(await folder.getFileHandle(name)));
  } catch (error) {
    if (error instanceof DOMException && error.name === 'NotFoundError') return null;
    throw error;
  }
}

/** `null` for a text that was cut short. */
function parseJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    // a torn last line or an empty new file: what it was to hold was never acknowledged
    return null;
  }
}

async function writeFile(folder: FileSystemDirectoryHandle, name: string, text: string): Promise<void> {
  const file = await folder.getFileHandle(name, { create: true });
  const writable = await file.createWritable();
  await writable.write(text);
  await writable.close();
}

async function appendFile(folder: FileSystemDirectoryHandle, name: string, text: string): Promise<void> {
  const file = await folder.getFileHandle(name, { create: true });
  const { size } = await file.getFile();
  const writable = await file.createWritable({ keepExistingData: true });
  await writable.write({ type: 'write', position: size, data: text });
  await writable.close();
}

async function removeIfThere(folder: FileSystemDirectoryHandle, name: string): Promise<void> {
  try {
    await folder.removeEntry(name, { recursive: true });
  } catch (error) {
    if (!(error instanceof DOMException) || error.name !== 'NotFoundError') throw error;
  }
}
