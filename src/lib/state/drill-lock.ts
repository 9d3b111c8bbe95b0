import { DRILL_LOCK } from '$lib/offline/drill-lock';
import { holdLock } from './hold-lock';

/**
 * One drill at a time, in whatever tab or window. Asked for twice it is still one lock, and it is let go for good also when that
 * is said before it was given: else a screen left at once would keep every later one out.
 */
export class DrillLock {
  #held: Promise<(() => void) | null> | null = null;

  /** False while another tab has it. */
  async take(): Promise<boolean> {
    const held = (this.#held ??= holdLock(DRILL_LOCK));
    if (await held) return true;
    if (this.#held === held) this.#held = null;
    return false;
  }

  release(): void {
    const held = this.#held;
    this.#held = null;
    void held?.then((letGo) => letGo?.());
  }
}
