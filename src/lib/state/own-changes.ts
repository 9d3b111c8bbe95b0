/** Tells the changes of this tab from what is to be heard of others: while one is made and taken in, what is heard waits. */
export class OwnChanges<Table> {
  readonly #hear: (tables: ReadonlySet<Table>) => void;
  #underWay = 0;
  #missed = new Set<Table>();

  constructor(hear: (tables: ReadonlySet<Table>) => void) {
    this.#hear = hear;
  }

  /** These tables were changed, here or in another tab. */
  heard(tables: ReadonlySet<Table>): void {
    if (this.#underWay === 0) this.#hear(tables);
    else for (const table of tables) this.#missed.add(table);
  }

  /** Makes a change, then takes in what the book has become. */
  async make<T>(change: () => Promise<T>, takeIn: (done: T) => Promise<void>): Promise<T> {
    this.#underWay += 1;
    try {
      const done = await change();
      // what is on disk by now is about to be read; what another tab writes from now on perhaps is not
      this.#missed.clear();
      await takeIn(done);
      return done;
    } finally {
      this.#underWay -= 1;
      if (this.#underWay === 0) this.#catchUp();
    }
  }

  #catchUp(): void {
    const missed = this.#missed;
    this.#missed = new Set();
    if (missed.size > 0) this.#hear(missed);
  }
}
