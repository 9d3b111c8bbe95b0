import { noWishes, readWishes, type PlanWishes } from '$lib/core/plan/wishes';
import { practiceDay } from '$lib/core/time/practice-day';
import { momentNow } from './clock';

const KEY = 'phrasewright-wishes';

/**
 * How the learner steers today's plan, kept on this device until the practice day is over; a second tab of the app
 * sees every change. They are no part of the book: a backup does not carry them.
 */
export class DayWishes {
  #kept: PlanWishes = $state.raw(noWishes(0));
  /** What is kept could not be written, so that this page alone knows it. */
  #isOnlyHere = false;
  readonly #dayStartsAtHour: () => number;

  /** `onchange` hears of changes by another tab. */
  constructor(dayStartsAtHour: () => number, onchange: () => void) {
    this.#dayStartsAtHour = dayStartsAtHour;
    this.#kept = readKept(this.#today());
    globalThis.addEventListener('storage', ({ key }) => {
      if (key !== KEY && key !== null) return;
      this.#kept = readKept(this.#today());
      onchange();
    });
  }

  /** Those of the practice day that it is now. */
  get now(): PlanWishes {
    const today = this.#today();
    return this.#kept.day === today ? this.#kept : readKept(today);
  }

  /** Changes them as they are kept at this moment: another tab may have changed them before this one has heard of it. */
  change(change: (wishes: PlanWishes) => PlanWishes): void {
    this.#keep(change(this.#isOnlyHere ? this.now : readKept(this.#today())));
  }

  #keep(wishes: PlanWishes): void {
    this.#kept = wishes;
    try {
      localStorage.setItem(KEY, JSON.stringify(wishes));
      this.#isOnlyHere = false;
    } catch {
      // full or switched off: the wishes hold until the page is closed
      this.#isOnlyHere = true;
    }
  }

  forget(): void {
    this.#keep(noWishes(this.#today()));
  }

  #today(): number {
    return practiceDay(momentNow(), this.#dayStartsAtHour());
  }
}

function readKept(day: number): PlanWishes {
  try {
    return readWishes(JSON.parse(localStorage.getItem(KEY) ?? 'null'), day);
  } catch {
    // storage switched off, or not what was written
    return noWishes(day);
  }
}
