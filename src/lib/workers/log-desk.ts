import type { SealedSitting } from '../core/practice/records';
import type { Standing } from '../core/practice/standing';
import type { Moment } from '../core/time/moment';
import type { Passage } from '../core/tune/passage';
import { LogReader } from '../store/log-reader';
import { PracticeDesk, RECENT_MS, type DeskBook } from './practice-desk';
import { promptCollection } from './prompt-collection';

/** Which book to read, and how. */
export interface BookToRead {
  name: string;
  now: Moment;
  dayStartsAtHour: number;
  /** The open sitting as if it were sealed, or `null`. */
  open: SealedSitting | null;
}

interface LogFolded {
  /** At which the desk then stands, or `null` when the log changed meanwhile, so that the fold must not be kept. */
  revision: number | null;
  /** Some sittings were passed over: the backup worker's `look` names them. */
  isDamaged: boolean;
}

/** By so many of the newest sittings a drill may begin before the log has been folded for the first time. */
const NEWEST = 60;

/**
 * The practice desk, which reads the book by itself. `open` is quick: after it the desk answers by the fold that was kept, and where
 * that is not of the log as it stands, `fold` is to follow. Questions are answered between the pieces of a long log.
 */
export class LogDesk extends PracticeDesk {
  readonly #onRead: (share: number) => void;
  #reader: Promise<LogReader> | null = null;
  #name: string | null = null;
  /** Counts the readings: only the latest goes on. */
  #turn = 0;
  #isFilled = false;
  #opened: Promise<unknown> = Promise.resolve();

  /** `onRead` hears how much of a long log has been folded, 0 to 1. */
  constructor(onRead: (share: number) => void) {
    super();
    this.#onRead = onRead;
  }

  /**
   * Reads the tunes and what was kept. The revision of the log that the desk then stands at, or `null`: it answers meanwhile
   * by something near, the fold of a log somewhat older or of the newest sittings alone, and the log has to be folded.
   */
  open(from: BookToRead): Promise<number | null> {
    this.#turn += 1;
    const opening = this.#open(from);
    this.#opened = opening.catch(() => undefined);
    return opening;
  }

  async #open({ name, now, dayStartsAtHour, open }: BookToRead): Promise<number | null> {
    const reader = await this.#readerOf(name);
    const { tunes, kept, recent, revision } = await reader.pastLost(() => reader.start(now.at - RECENT_MS));
    const book: DeskBook = { tunes, now, dayStartsAtHour };
    const isKept = kept?.revision === revision && this.resume(book, kept.fold, recent);
    const isWhole = isKept && (!open || this.take(open, now));
    if (!isKept) {
      if (this.#isFilled) this.retune(book);
      else if (!kept || !this.resume(book, kept.fold, recent))
        this.load(book, await reader.pastLost(() => reader.newest(NEWEST)));
      if (open) this.take(open, now);
    }
    this.#isFilled = true;
    return isWhole ? revision : null;
  }

  /** Folds the whole log. Rejects when another reading has begun since. */
  async fold(from: BookToRead): Promise<LogFolded> {
    const turn = this.#turn;
    const reader = await this.#readerOf(from.name);
    return reader.pastLost(() => this.#fold(reader, from, turn));
  }

  async #fold(
    reader: LogReader,
    { now, dayStartsAtHour, open }: BookToRead,
    turn: number,
  ): Promise<LogFolded> {
    const { tunes, revision, sittings } = await reader.head();
    const book: DeskBook = { tunes, now, dayStartsAtHour };
    this.begin(book);
    const goOn = (): void => {
      if (turn !== this.#turn) throw new Error('The book has changed, and is read again');
    };
    let done = 0;
    let isInOrder = true;
    for await (const piece of reader.pieces()) {
      goOn();
      isInOrder = this.add(piece);
      if (!isInOrder) break;
      done += piece.length;
      this.#onRead(Math.min(1, done / Math.max(1, sittings)));
    }
    const isDone = isInOrder && this.finish();
    let isOpenApart = isDone && (!open || this.take(open, now));
    if (!isOpenApart) {
      // a clock that was set back: passes fall into place only when all are at hand
      const all: SealedSitting[] = [];
      for await (const piece of reader.pieces()) all.push(...piece);
      goOn();
      done = all.length;
      this.load(book, all);
      isOpenApart = !open || this.take(open, now);
      if (open && !isOpenApart) this.load(book, [...all, open]);
    }
    const isWhole = isOpenApart && (await reader.revision()) === revision;
    return { revision: isWhole ? revision : null, isDamaged: done < sittings };
  }

  /** Keeps what the fold has become since the last call, for the next start; `revision`: of the log that it is of. */
  async keepFor(revision: number): Promise<void> {
    const kept = this.keep();
    if (kept && this.#name !== null) {
      await (await this.#readerOf(this.#name)).keep(kept.kept, kept.isWhole, revision);
      promptCollection();
    }
  }

  /** As `standing`, from the moment on at which the desk can say anything. */
  async standingMeanwhile(passage: Passage, now: Moment): Promise<Standing> {
    await this.#opened;
    return this.standing(passage, now);
  }

  #readerOf(name: string): Promise<LogReader> {
    // the next question tries again
    const drop = (): null => (this.#reader = null);
    if (this.#name !== name) drop();
    this.#name = name;
    this.#reader ??= LogReader.open(name, drop);
    this.#reader.catch(drop);
    return this.#reader;
  }
}
