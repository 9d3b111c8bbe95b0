/** Where nothing else ends it, a mark holds when it has not been touched for this long. */
const SETTLES_AFTER_MS = 1200;

/** Calls when a mark has been left alone for a moment; beginning again begins the wait anew. */
export class SettleTimer {
  #timer: ReturnType<typeof setTimeout> | null = null;
  readonly #call: () => void;

  constructor(call: () => void) {
    this.#call = call;
  }

  begin(): void {
    this.stop();
    this.#timer = setTimeout(this.#call, SETTLES_AFTER_MS);
  }

  stop(): void {
    if (this.#timer !== null) clearTimeout(this.#timer);
    this.#timer = null;
  }
}
