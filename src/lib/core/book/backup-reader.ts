import { say } from '../../texts/backup-file';
import { BackupCheck, type BackupVerdict } from './backup-check';
import { emptyBook, type Book } from './book';
import { RECORD_KINDS, type RecordKind } from './book-checksum';
import { nestsTooDeep, sayJsonFault } from './json-place';
import { BACKUP_CHARACTERS_MAX, LINE_CHARACTERS_MAX } from './limits';

/** `isStrange`: the file is not laid out one record a line, so that only `readBackup` can tell what it holds. */
export type StreamVerdict = (BackupVerdict & { isStrange?: false }) | (Refusal & { isStrange: true });

interface Refusal {
  ok: false;
  damage: string[];
}

interface Options {
  /** Every record was checked before: only checksum and counts are looked at again. */
  isTrusted?: boolean;
  /** Hears each record once it is checked; whether the file as a whole is sound is known only at the end. */
  onRecord?: (kind: RecordKind, record: unknown) => void;
}

const FIELD = /^"([a-zA-Z]+)":(.*)$/s;

/**
 * Reads a backup file from its text, chunk by chunk, in the layout of `BackupWriter`: one field or record a line. Checks
 * every record as it comes and holds no more than one line. What can be said against a file is said by `finish`.
 */
export class BackupReader {
  readonly #check: BackupCheck;
  readonly #onRecord: NonNullable<Options['onRecord']>;
  #refusal: StreamVerdict | null = null;
  #rest = '';
  #characters = 0;
  #line = 0;
  #place: 'start' | 'fields' | 'list' | 'end' = 'start';
  #kind: RecordKind = 'settings';
  #kinds = 0;
  /** Whether the line before ended in a comma; `null` right after a bracket was opened. */
  #comma: boolean | null = null;

  constructor({ isTrusted = false, onRecord = () => undefined }: Options = {}) {
    this.#check = new BackupCheck(isTrusted);
    this.#onRecord = onRecord;
  }

  /** Takes the next piece of the text. `false`: the rest need not be read. */
  push(text: string): boolean {
    this.#characters += text.length;
    if (this.#characters > BACKUP_CHARACTERS_MAX) {
      this.#refuse(say.tooLong(BACKUP_CHARACTERS_MAX));
    }
    let from = 0;
    for (let to = text.indexOf('\n'); to >= 0 && !this.#refusal; to = text.indexOf('\n', from)) {
      this.#take(this.#rest + text.slice(from, to));
      this.#rest = '';
      from = to + 1;
    }
    if (!this.#refusal) this.#rest += text.slice(from);
    if (this.#rest.length > LINE_CHARACTERS_MAX) this.#strange(say.longLine);
    return !this.#refusal;
  }

  /** To be asked once, after the last piece. */
  finish(): StreamVerdict {
    if (!this.#refusal && this.#rest !== '') this.#take(this.#rest);
    if (!this.#refusal && this.#place !== 'end') {
      this.#strange(say.endsTooSoon(Math.max(1, this.#line)));
    }
    return this.#refusal ?? this.#guarded(() => this.#check.verdict());
  }

  #take(line: string): void {
    this.#line += 1;
    const text = line.endsWith('\r') ? line.slice(0, -1) : line;
    const refusal = this.#guarded(() => this.#takeLine(text));
    if (refusal) this.#refusal = refusal;
  }

  #guarded<T>(work: () => T): T | StreamVerdict {
    try {
      return work();
    } catch (error) {
      if (error instanceof RangeError) return { ok: false, damage: [say.tooDeep] };
      throw error;
    }
  }

  #takeLine(text: string): void {
    if (this.#place === 'start' || this.#place === 'end') {
      const isRight = this.#place === 'start' ? text.replace(/^\uFEFF/, '') === '{' : text === '';
      if (!isRight) this.#strange(say.otherLayout(this.#line));
      else if (this.#place === 'start') this.#place = 'fields';
      return;
    }
    const closing = this.#place === 'list' ? ']' : '}';
    const hasComma = text.endsWith(',');
    const bare = hasComma ? text.slice(0, -1) : text;
    const isClosing = bare === closing;
    // a comma stands between two items, and nowhere else
    if (this.#comma !== null && this.#comma === isClosing) this.#strange(sayJsonFault(text, this.#line));
    else if (isClosing) this.#close(hasComma);
    else if (this.#place === 'list') this.#takeRecord(bare, hasComma);
    else this.#takeField(bare, hasComma);
  }

  #close(hasComma: boolean): void {
    if (this.#place === 'list') this.#place = 'fields';
    else if (hasComma) this.#strange(say.notJson(this.#line, 2));
    else this.#place = 'end';
    this.#comma = hasComma;
  }

  #takeRecord(text: string, hasComma: boolean): void {
    const parsed = this.#parse(text);
    if (!parsed) return;
    this.#comma = hasComma;
    this.#check.record(this.#kind, parsed.value);
    this.#onRecord(this.#kind, parsed.value);
  }

  #takeField(text: string, hasComma: boolean): void {
    const [, key = '', value = ''] = FIELD.exec(text) ?? [];
    const kind = RECORD_KINDS.find((one) => one === key);
    if (kind) {
      const isInOrder = RECORD_KINDS.indexOf(kind) === this.#kinds;
      // only an opening bracket stands alone; a list in one line is another layout
      if (!isInOrder || (value !== '[]' && (value !== '[' || hasComma))) return this.#strangeAt(text);
      this.#kinds += 1;
      this.#check.list(kind);
      this.#comma = value === '[' ? null : hasComma;
      if (value === '[') [this.#place, this.#kind] = ['list', kind];
      return;
    }
    const parsed = key === '' ? this.#strangeAt(text) : this.#parse(value, text.length - value.length);
    if (!parsed) return;
    this.#comma = hasComma;
    this.#check.field(key, parsed.value);
    const stranger = this.#check.strangerFault(false);
    if (stranger !== null) this.#refuse(stranger);
  }

  #parse(text: string, before = 0): { value: unknown } | undefined {
    if (nestsTooDeep(text)) return this.#refuse(say.tooDeep);
    try {
      return { value: JSON.parse(text) };
    } catch {
      return this.#strange(sayJsonFault(' '.repeat(before) + text, this.#line));
    }
  }

  #strangeAt(text: string): undefined {
    return this.#strange(text === '' ? say.emptyLine(this.#line) : say.otherLine(this.#line));
  }

  #strange(damage: string): undefined {
    this.#refusal ??= { ok: false, isStrange: true, damage: [damage] };
  }

  #refuse(damage: string): undefined {
    this.#refusal ??= { ok: false, damage: [damage] };
  }
}

/** Passes in one piece of a book: enough to be worth a transaction's requests, few enough to be held twice. */
const PIECE_PASSES = 10_000;

/**
 * The records of a file that was found sound, as books of some ten thousand passes each. Throws when the text is not the
 * one with that checksum any more, so that the caller can undo what it did with the pieces before.
 */
export function* bookPieces(texts: Iterable<string>, checksum: string): Generator<Book> {
  let piece = emptyBook();
  let passes = 0;
  let size = 0;
  const reader = new BackupReader({
    isTrusted: true,
    onRecord: (kind, record) => {
      (piece[kind] as unknown[]).push(record);
      size += 1;
      passes += kind === 'sittings' ? (record as Book['sittings'][number]).log.length : 10;
    },
  });
  for (const text of texts) {
    if (!reader.push(text)) break;
    if (passes < PIECE_PASSES) continue;
    yield piece;
    [piece, passes, size] = [emptyBook(), 0, 0];
  }
  const verdict = reader.finish();
  if (!verdict.ok || verdict.checksum !== checksum) {
    throw new Error(say.changedSince);
  }
  if (size > 0) yield piece;
}
