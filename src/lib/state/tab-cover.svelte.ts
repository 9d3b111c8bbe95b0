/** The cover over a drill's tab: whether it is on, whether it is lifted for a peek, and whether a pass saw beneath it. */
export class TabCover {
  isOn = $state(false);
  isPeeking = $state(false);
  readonly #hasTab: boolean;
  #wasSeen = false;
  /** The look is over: from now on the cover is the learner's switch. */
  #hasLooked = false;

  constructor(hasTab: boolean) {
    this.#hasTab = hasTab;
  }

  get isTabShown(): boolean {
    return this.#hasTab && (!this.isOn || this.isPeeking);
  }

  /** Whether the tab was in sight at any time since `beginPass`. */
  get wasSeen(): boolean {
    return this.#wasSeen;
  }

  set(isOn: boolean): void {
    this.isOn = isOn;
    this.#hasLooked = true;
    this.#noteSeen();
  }

  peek(isPeeking: boolean): void {
    this.isPeeking = isPeeking;
    this.#noteSeen();
  }

  /** Ends the look, once. */
  coverAfterLook(): void {
    if (this.#hasLooked) return;
    this.#hasLooked = true;
    this.isOn = true;
  }

  beginPass(): void {
    this.#wasSeen = this.isTabShown;
  }

  #noteSeen(): void {
    if (this.isTabShown) this.#wasSeen = true;
  }
}
