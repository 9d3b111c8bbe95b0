import type { EntryOptions, EntryRead, NotationFile } from '../core/notation/notation-file';
import { readNotationFile } from '../core/notation/read-file';

/** A source as the page knows it: everything but the way to read its tunes, which stays with the worker. */
export type NotationListing = Omit<NotationFile, 'read'>;

export type NotationQuestion =
  | { id: number; verb: 'open'; bytes: Uint8Array; name: string }
  | { id: number; verb: 'read'; index: number; options: EntryOptions };

export type NotationAnswer =
  { id: number; value: NotationListing | { refusal: string } | EntryRead } | { id: number; error: string };

/** The worker's side: holds the source opened last and answers about it. */
export class NotationReader {
  #file: NotationFile | null = null;

  answer(question: NotationQuestion): NotationAnswer {
    const { id } = question;
    try {
      return { id, value: question.verb === 'open' ? this.#open(question) : this.#read(question) };
    } catch (error) {
      return { id, error: error instanceof Error ? error.message : String(error) };
    }
  }

  #open({ bytes, name }: Extract<NotationQuestion, { verb: 'open' }>): NotationListing | { refusal: string } {
    this.#file = null;
    const file = readNotationFile(bytes, name);
    if ('refusal' in file) return file;
    this.#file = file;
    const { format, guessedEncoding, entries, warnings } = file;
    return { format, guessedEncoding, entries, warnings };
  }

  #read({ index, options }: Extract<NotationQuestion, { verb: 'read' }>): EntryRead {
    if (!this.#file) throw new Error('No source is open');
    // the score stays here: the page shows the reading alone
    const { reading, voices } = this.#file.read(index, options);
    return { reading, voices };
  }
}
