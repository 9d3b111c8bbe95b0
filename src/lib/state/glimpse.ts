import { SETTING_DEFAULTS, type Settings } from '$lib/core/book/settings';
import type { Plan } from '$lib/core/plan/plan';

/** What Today shows before the book is open: the last plan, and the settings that it was made for. */
export interface Glimpse {
  plan: Plan | null;
  settings: Settings;
}

const KEY = 'phrasewright-glimpse';
/** Raised when the shape of a plan or a setting changes: an older glimpse is then forgotten. */
const VERSION = 2;

/** The last glimpse, or `null`. It may be out of date and is replaced as soon as the book is open. */
export function readGlimpse(): Glimpse | null {
  try {
    const kept = JSON.parse(localStorage.getItem(KEY) ?? 'null') as (Glimpse & { version: number }) | null;
    if (kept?.version !== VERSION) return null;
    return { plan: kept.plan, settings: { ...SETTING_DEFAULTS, ...kept.settings } };
  } catch {
    // storage switched off, or not what was written: the book itself is read in a moment
    return null;
  }
}

export function keepGlimpse(glimpse: Glimpse): void {
  try {
    localStorage.setItem(KEY, JSON.stringify({ ...glimpse, version: VERSION }));
  } catch {
    // full or switched off: the next start waits for the book
  }
}
