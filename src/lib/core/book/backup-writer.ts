import type { Moment } from '../time/moment';
import { BACKUP_FORMAT, BACKUP_VERSION } from './backup-check';
import { countPasses, type Book, type BookCounts } from './book';
import { BookChecksum, RECORD_KINDS, type RecordKind } from './book-checksum';
import { canonicalJson } from './canonical-json';

/**
 * Writes a backup file some records at a time: JSON, UTF-8, one record a line, in fields `format`, `version`,
 * `exportedAt` (a Moment), `settings`, `sittings`, `tunes`, `counts` (BookCounts) and `checksum` (BookChecksum, in hex).
 * Drills and passes are nested in their sittings, as they are kept, so that a sitting can be read, checked and merged by
 * itself. The texts that `add` and `finish` return are the file.
 */
export class BackupWriter {
  readonly #checksum = new BookChecksum();
  readonly #counts: BookCounts = { tunes: 0, sittings: 0, drills: 0, passes: 0, settings: 0 };
  #text: string;
  /** Index of the list that is open; -1 before the first. */
  #open = -1;
  #isFirst = true;

  constructor({ at, offsetMin }: Moment) {
    this.#text = [
      `{\n"format":"${BACKUP_FORMAT}"`,
      `"version":${BACKUP_VERSION}`,
      `"exportedAt":${canonicalJson({ at, offsetMin })}`,
    ].join(',\n');
  }

  /** The text of the next records of one kind. Kinds come in the order of `RECORD_KINDS`, records in that of `sortBook`. */
  add<Kind extends RecordKind>(kind: Kind, records: Book[Kind]): string {
    this.#openUpTo(RECORD_KINDS.indexOf(kind));
    this.#counts[kind] += records.length;
    for (const record of records) {
      const canonical = canonicalJson(record);
      this.#checksum.add(kind, canonical);
      this.#text += `${this.#isFirst ? '\n' : ',\n'}${canonical}`;
      this.#isFirst = false;
      if (!('log' in record)) continue;
      this.#counts.drills += record.drills.length;
      this.#counts.passes += countPasses(record.log);
    }
    return this.#take();
  }

  /** The rest of the file. */
  finish(): string {
    this.#openUpTo(RECORD_KINDS.length);
    this.#text += `,\n"counts":${canonicalJson(this.#counts)},\n"checksum":"${this.#checksum.digest()}"\n}\n`;
    return this.#take();
  }

  /** What has been written so far. */
  get counts(): BookCounts {
    return { ...this.#counts };
  }

  #openUpTo(index: number): void {
    while (this.#open < index) {
      if (this.#open >= 0) this.#text += this.#isFirst ? ']' : '\n]';
      this.#open += 1;
      this.#isFirst = true;
      const kind = RECORD_KINDS[this.#open];
      if (kind) this.#text += `,\n"${kind}":[`;
    }
  }

  #take(): string {
    const text = this.#text;
    this.#text = '';
    return text;
  }
}
