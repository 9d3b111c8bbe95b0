import { expect, test } from 'vitest';
import {
  isSettingRow,
  readSettings,
  SETTING_DEFAULTS,
  SETTING_NAMES,
  SETTING_RULES,
  settingRow,
  type SettingRow,
} from '../../../src/lib/core/book/settings';
import { checkSettingRow } from '../../../src/lib/core/book/schema';
import { SMALL_BOOK, START } from './made-up-books';

test('without rows every setting has its default, and each default obeys its own rule', () => {
  expect(readSettings([])).toEqual(SETTING_DEFAULTS);
  for (const key of SETTING_NAMES) {
    expect(SETTING_RULES[key].fits(SETTING_DEFAULTS[key])).toBe(true);
    expect(checkSettingRow(settingRow(key, SETTING_DEFAULTS[key], START))).toMatchObject({ ok: true });
  }
});

test('rows replace defaults, one by one', () => {
  expect(readSettings(SMALL_BOOK.settings)).toEqual({ ...SETTING_DEFAULTS, minutes: 25, breath: 'wait' });
});

test.each([
  ['a value out of range', { key: 'minutes', value: 9000, editedAt: START }],
  ['half an hour of the day', { key: 'dayStartsAtHour', value: 4.5, editedAt: START }],
  ['a tuning of four strings', { key: 'tuning', value: [67, 50, 55, 59], editedAt: START }],
  ['an unknown key', { key: 'toString', value: 1, editedAt: START }],
  ['no time', { key: 'minutes', value: 10 }],
  ['no row', null],
])('%s is passed over', (_name, row) => {
  expect(isSettingRow(row)).toBe(false);
  expect(readSettings([row as unknown as SettingRow])).toEqual(SETTING_DEFAULTS);
});
