import { say } from '../../texts/record-damage';
import { DAY_STARTS_AT_HOUR } from '../time/practice-day';
import type { Tuning } from '../tune/tuning';
import { BREATHS, type Breath } from '../practice/drill-segments';
import { CLIMBS, type ClimbKind } from '../practice/records';
import { CLICK_SOUNDS, type ClickSound } from '../rhythm/click-sound';
import type { SilentMeasures } from '../rhythm/click-times';
import { PATTERNS, SWING_MAX, SWING_MIN, type Pattern } from '../rhythm/patterns';
import { PITCH_MAX, PITCH_MIN, TIME_MAX, TIME_MIN } from './limits';

export const THEMES = ['system', 'light', 'dark'] as const;
export type Theme = (typeof THEMES)[number];

/** What the learner chose, once and for every sitting. */
export interface Settings {
  /** 0 to 12: the local hour at which a practice day begins. */
  dayStartsAtHour: number;
  /** 5 to 120: the minutes that the check-in offers. */
  minutes: number;
  /** The tuning that the banjo is in; `null`: not said. */
  tuning: Tuning | null;
  breath: Breath;
  /** Four passes run on, with a breath after the fourth only. */
  handful: boolean;
  /** A pass that nobody marked counts as clean; otherwise it is not counted. */
  countUnmarkedAsClean: boolean;
  /** The drill's surface is split into three, one band for each outcome. */
  bands: boolean;
  climb: ClimbKind;
  /** 1 or 2 measures. */
  countIn: number;
  hideTabAfterLook: boolean;
  /** 0 to 1. */
  clickVolume: number;
  /** 0 to 1: the plucked string of "Hear it". */
  pluckVolume: number;
  clickPattern: Pattern;
  clickSound: ClickSound;
  /** The count-in is counted aloud. */
  spokenCount: boolean;
  /** 1 (straight) to 2: how long the first of two notes of the pattern is to the second. */
  swing: number;
  /** Whole measures, 1 to 16 each, that sound and that do not, in turn; `null`: all sound. */
  silentMeasures: Pick<SilentMeasures, 'on' | 'off'> | null;
  theme: Theme;
  /** -300 to 300: added to the measured delay between click and ear. */
  latencyNudgeMs: number;
}

export type SettingName = keyof Settings;

/** One setting as it is kept: with its own time of change, so that a merge takes the later of each. */
export interface SettingRowOf<Name extends SettingName> {
  key: Name;
  value: Settings[Name];
  editedAt: number;
}

export type SettingRow = { [Name in SettingName]: SettingRowOf<Name> }[SettingName];

export const SETTING_DEFAULTS: Readonly<Settings> = {
  dayStartsAtHour: DAY_STARTS_AT_HOUR,
  minutes: 20,
  tuning: null,
  breath: '1',
  handful: false,
  countUnmarkedAsClean: false,
  bands: false,
  climb: 'steady',
  countIn: 1,
  hideTabAfterLook: true,
  clickVolume: 0.7,
  pluckVolume: 0.7,
  clickPattern: 'beat',
  clickSound: 'wood',
  spokenCount: false,
  swing: SWING_MIN,
  silentMeasures: null,
  theme: 'system',
  latencyNudgeMs: 0,
};

export const SILENT_MEASURES_MAX = 16;

type Guard<T> = (value: unknown) => value is T;

interface Rule<T> {
  fits: Guard<T>;
  /** What it may be: "a whole number from 0 to 12". */
  means: () => string;
}

export const SETTING_RULES: { readonly [Name in SettingName]: Rule<Settings[Name]> } = {
  dayStartsAtHour: whole(0, 12),
  minutes: whole(5, 120),
  tuning: { fits: isTuningOrNull, means: () => say.values.tuning(PITCH_MIN, PITCH_MAX) },
  breath: oneOf(BREATHS),
  handful: yesOrNo(),
  countUnmarkedAsClean: yesOrNo(),
  bands: yesOrNo(),
  climb: oneOf(CLIMBS),
  countIn: whole(1, 2),
  hideTabAfterLook: yesOrNo(),
  clickVolume: within(0, 1),
  pluckVolume: within(0, 1),
  clickPattern: oneOf(PATTERNS),
  clickSound: oneOf(CLICK_SOUNDS),
  spokenCount: yesOrNo(),
  swing: within(SWING_MIN, SWING_MAX),
  silentMeasures: {
    fits: isSilentMeasuresOrNull,
    means: () => say.values.silentMeasures(SILENT_MEASURES_MAX),
  },
  theme: oneOf(THEMES),
  latencyNudgeMs: within(-300, 300),
};

export const SETTING_NAMES = Object.keys(SETTING_DEFAULTS) as readonly SettingName[];

/** The row that keeps one setting. */
export function settingRow<Name extends SettingName>(
  key: Name,
  value: Settings[Name],
  editedAt: number,
): SettingRow {
  return { key, value, editedAt } as SettingRow;
}

/** True for a row that `readSettings` would heed. */
export function isSettingRow(row: unknown): row is SettingRow {
  if (typeof row !== 'object' || row === null) return false;
  const { key, value, editedAt } = row as Record<string, unknown>;
  return (
    typeof key === 'string' &&
    Object.hasOwn(SETTING_RULES, key) &&
    SETTING_RULES[key as SettingName].fits(value) &&
    typeof editedAt === 'number' &&
    editedAt >= TIME_MIN &&
    editedAt <= TIME_MAX
  );
}

/** Every setting: what the rows say, the default for the rest. A row of no sense is passed over. */
export function readSettings(rows: readonly SettingRow[]): Settings {
  const kept = rows.filter(isSettingRow).map(({ key, value }) => [key, value]);
  return { ...SETTING_DEFAULTS, ...(Object.fromEntries(kept) as Partial<Settings>) };
}

function whole(min: number, max: number): Rule<number> {
  return {
    fits: (value): value is number => Number.isInteger(value) && isWithin(value, min, max),
    means: () => say.values.whole(min, max),
  };
}

function within(min: number, max: number): Rule<number> {
  return {
    fits: (value): value is number => isWithin(value, min, max),
    means: () => say.values.within(min, max),
  };
}

function isWithin(value: unknown, min: number, max: number): boolean {
  return typeof value === 'number' && value >= min && value <= max;
}

function yesOrNo(): Rule<boolean> {
  return { fits: (value) => typeof value === 'boolean', means: () => say.values.yesOrNo };
}

function oneOf<T extends string>(words: readonly T[]): Rule<T> {
  return {
    fits: (value): value is T => words.some((word) => word === value),
    means: () => say.values.oneOf(words.join(', ')),
  };
}

function isTuningOrNull(value: unknown): value is Tuning | null {
  if (value === null) return true;
  return (
    Array.isArray(value) &&
    value.length === 5 &&
    value.every((pitch) => Number.isInteger(pitch) && isWithin(pitch, PITCH_MIN, PITCH_MAX))
  );
}

function isSilentMeasuresOrNull(value: unknown): value is Settings['silentMeasures'] {
  if (value === null) return true;
  if (typeof value !== 'object') return false;
  const { on, off, ...others } = value as Record<string, unknown>;
  return (
    [on, off].every((count) => Number.isInteger(count) && isWithin(count, 1, SILENT_MEASURES_MAX)) &&
    Object.keys(others).length === 0
  );
}
