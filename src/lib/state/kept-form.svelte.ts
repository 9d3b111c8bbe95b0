import { DraftKeeper, draftsLeft } from './drafts';

/** What is written on a form and not in the book yet: kept on this device as it changes, and taken up after a closed page. */
export class KeptForm<Written> {
  /** `null`: nothing is written. */
  written: Written | null = $state.raw(null);
  /** It was written on an earlier visit. */
  isTakenUp = $state(false);
  readonly #thing: string;
  readonly #keeper: DraftKeeper<Written>;

  constructor(thing: string) {
    this.#thing = thing;
    this.#keeper = new DraftKeeper(thing);
    this.#keeper.hold();
  }

  /** Goes on with what was left, the newest of it; what other windows have left waits until this is done. Never rejects. */
  async takeUp(read: (kept: unknown) => Written | null): Promise<void> {
    try {
      for (const left of await draftsLeft(this.#thing)) {
        const written = read(left.kept);
        if (written === null) continue;
        this.#keeper.takeOver(left);
        this.write(written);
        this.isTakenUp = true;
        return;
      }
    } catch {
      // the form can be filled in all the same, and says so when what is written cannot be kept
    }
  }

  /** With `null` nothing is written any more: it is in the book, or not wanted. */
  write(written: Written | null): void {
    this.written = written;
    if (written === null) this.isTakenUp = false;
    // it is said among all that waits, and tried again
    this.#keeper.keep(written).catch(() => undefined);
  }

  /** The form is left; whoever opens it next goes on with it. */
  leave(): void {
    this.#keeper.letGo();
  }
}
