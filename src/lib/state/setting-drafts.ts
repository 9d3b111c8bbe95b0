import { isSettingRow, SETTING_NAMES, type SettingRow } from '$lib/core/book/settings';

/**
 * Settings that are being written to the book. Storage that answers at once holds them meanwhile: a page that is
 * reloaded or closed within the same moment has been known to end before its database has heard of the change.
 */
const KEY = 'phrasewright-setting ';

export function keepSettingDraft(row: SettingRow): void {
  try {
    localStorage.setItem(KEY + row.key, JSON.stringify(row));
  } catch {
    // full or switched off: the change is safe as soon as it is in the book
  }
}

/** Forgets a draft, unless another tab has put a newer one in its place. */
export function forgetSettingDraft(row: SettingRow): void {
  try {
    if (localStorage.getItem(KEY + row.key) === JSON.stringify(row)) localStorage.removeItem(KEY + row.key);
  } catch {
    // switched off: nothing was kept either
  }
}

/** Those that a closed page, or another tab at this moment, has not been able to forget. */
export function settingDrafts(): SettingRow[] {
  return SETTING_NAMES.flatMap((name) => {
    try {
      const row: unknown = JSON.parse(localStorage.getItem(KEY + name) ?? 'null');
      return isSettingRow(row) && row.key === name ? [row] : [];
    } catch {
      // switched off, or not what was written
      return [];
    }
  });
}
