import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';

/** The kinds of records in a backup, in the order of the file and of its checksum. */
export const RECORD_KINDS = ['settings', 'sittings', 'tunes'] as const;
export type RecordKind = (typeof RECORD_KINDS)[number];

/** Text is hashed some characters at a time: a call for every small record would cost more than the hashing. */
const BATCH = 65_536;

/**
 * SHA-256 over the UTF-8 bytes of the canonical JSON of `{ settings, sittings, tunes }`, record by record: that text is
 * the records' own canonical JSON with brackets and commas between.
 */
export class BookChecksum {
  readonly #hash = sha256.create();
  #text = '';
  /** Index of the list that is open; -1 before the first. */
  #open = -1;
  #isFirst = true;

  /** The next record, as canonical JSON. Kinds come in the order of `RECORD_KINDS`. */
  add(kind: RecordKind, canonical: string): void {
    this.#openUpTo(RECORD_KINDS.indexOf(kind));
    this.#put(this.#isFirst ? canonical : `,${canonical}`);
    this.#isFirst = false;
  }

  /** In hex; to be asked for once, at the end. */
  digest(): string {
    this.#openUpTo(RECORD_KINDS.length - 1);
    this.#put(']}');
    this.#hash.update(utf8ToBytes(this.#text));
    return bytesToHex(this.#hash.digest());
  }

  #openUpTo(index: number): void {
    if (index < this.#open) throw new Error(`Records come in the order ${RECORD_KINDS.join(', ')}`);
    while (this.#open < index) {
      this.#put(this.#open < 0 ? '{' : '],');
      this.#open += 1;
      this.#put(`"${RECORD_KINDS[this.#open]!}":[`);
      this.#isFirst = true;
    }
  }

  #put(text: string): void {
    this.#text += text;
    if (this.#text.length < BATCH) return;
    this.#hash.update(utf8ToBytes(this.#text));
    this.#text = '';
  }
}
