import { HANDS, type Hands } from '$lib/core/practice/records';
import { practiceDay } from '$lib/core/time/practice-day';
import { momentNow } from './clock';

const KEY = 'phrasewright-hands';

/** How the hands feel today, before a sitting has begun; every tab knows it, and tomorrow they are fresh again. */
export class DayHands {
  #kept: { day: number; hands: Hands } | null = $state.raw(readKept());
  readonly #dayStartsAtHour: () => number;

  /** `onchange` hears of changes by another tab. */
  constructor(dayStartsAtHour: () => number, onchange: () => void) {
    this.#dayStartsAtHour = dayStartsAtHour;
    globalThis.addEventListener('storage', ({ key }) => {
      if (key !== KEY && key !== null) return;
      this.#kept = readKept();
      onchange();
    });
  }

  get now(): Hands {
    return this.#kept?.day === this.#today() ? this.#kept.hands : 'fresh';
  }

  keep(hands: Hands): void {
    this.#kept = { day: this.#today(), hands };
    try {
      localStorage.setItem(KEY, JSON.stringify(this.#kept));
    } catch {
      // full or switched off: it holds until the page is closed
    }
  }

  forget(): void {
    this.#kept = null;
    try {
      localStorage.removeItem(KEY);
    } catch {
      // switched off: nothing was kept either
    }
  }

  #today(): number {
    return practiceDay(momentNow(), this.#dayStartsAtHour());
  }
}

function readKept(): { day: number; hands: Hands } | null {
  try {
    const { day, hands } = JSON.parse(localStorage.getItem(KEY) ?? '{}') as Record<string, unknown>;
    const known = HANDS.find((one) => one === hands);
    return typeof day === 'number' && known ? { day, hands: known } : null;
  } catch {
    // switched off, or not what was written
    return null;
  }
}
