import * as v from 'valibot';
import { say } from '../../texts/damage';
import { say as sayRecord } from '../../texts/record-damage';
import type { Drill, LogEntry, SealedSitting, Sitting } from '../practice/records';
import type { Tune } from '../tune/tune';
import type { Book } from './book';
import { RECORDS_MAX } from './limits';
import { drillSchema, logEntrySchema, sealedSittingSchema, sittingSchema } from './practice-schema';
import { DamageList, sayAt, sayFault, show } from './say-damage';
import { type Agrees, repeated, type Same, timeSchema } from './schema-words';
import { isSettingRow, SETTING_NAMES, SETTING_RULES, type SettingName, type SettingRow } from './settings';
import { tuneSchema } from './tune-schema';

export { drillSchema, logEntrySchema, sealedSittingSchema, sittingSchema, tuneSchema };

export const settingRowSchema = v.pipe(
  v.strictObject({ key: v.picklist(SETTING_NAMES), value: v.unknown(), editedAt: timeSchema }),
  v.check(
    ({ key, value }) => SETTING_RULES[key].fits(value),
    ({ input }) => sayAt(['value'], sayRecord.notValue(show(input.value), SETTING_RULES[input.key].means())),
  ),
  v.guard(isSettingRow),
);

type _Proof = [
  Agrees<Same<SettingRow, v.InferOutput<typeof settingRowSchema>>>,
  Agrees<Same<SettingName, SettingRow['key']>>,
  Agrees<Same<Book, { [Kind in keyof typeof KINDS]: v.InferOutput<(typeof KINDS)[Kind]>[] }>>,
];

const KINDS = { tunes: tuneSchema, sittings: sealedSittingSchema, settings: settingRowSchema };

export type Checked<T> = { ok: true; value: T } | { ok: false; damage: string[] };

/** A book from the outside. Every damaged record is named, up to 20; one makes the whole book refused. */
export function checkBook(value: unknown): Checked<Book> {
  if (typeof value !== 'object' || value === null) {
    return { ok: false, damage: [say.notBook] };
  }
  const damage = new DamageList();
  const lists = value as Record<string, unknown>;
  for (const kind of ['tunes', 'sittings', 'settings'] as const) {
    const list = lists[kind];
    if (!Array.isArray(list)) damage.add(sayAt([kind], say.notList));
    else if (list.length > RECORDS_MAX) damage.add(sayAt([kind], say.tooMany(RECORDS_MAX)));
    else for (const fault of listFaults(kind, list)) damage.add(fault);
  }
  return damage.isEmpty ? { ok: true, value: value as Book } : { ok: false, damage: damage.said() };
}

export const checkTune = (value: unknown): Checked<Tune> => check(tuneSchema, value);
export const checkSitting = (value: unknown): Checked<Sitting> => check(sittingSchema, value);
export const checkSealedSitting = (value: unknown): Checked<SealedSitting> =>
  check(sealedSittingSchema, value);
export const checkDrill = (value: unknown): Checked<Drill> => check(drillSchema, value);
export const checkLogEntry = (value: unknown): Checked<LogEntry> => check(logEntrySchema, value);
export const checkSettingRow = (value: unknown): Checked<SettingRow> => check(settingRowSchema, value);

function check<Schema extends v.GenericSchema>(
  schema: Schema,
  value: unknown,
): Checked<v.InferOutput<Schema>> {
  const result = v.safeParse(schema, value, { abortPipeEarly: true });
  if (result.success) return { ok: true, value: result.output };
  return { ok: false, damage: result.issues.map((issue) => sayFault(issue)) };
}

/** What is wrong with one record of a list, in sentences; `index` is its place, from 0. */
export function recordFaults(kind: keyof typeof KINDS, record: unknown, index: number): string[] {
  const result = v.safeParse(KINDS[kind], record, { abortPipeEarly: true });
  return result.success ? [] : result.issues.map((issue) => sayFault(issue, [kind, index]));
}

function listFaults(kind: keyof typeof KINDS, list: readonly unknown[]): string[] {
  const faults = list.flatMap((record, index) => recordFaults(kind, record, index));
  if (faults.length > 0) return faults;
  const keyOf = (record: unknown): string => {
    const { id, key } = record as { id?: string; key?: string };
    return id ?? key ?? '';
  };
  const twice = repeated(list.map(keyOf));
  return twice === undefined ? [] : [sayAt([kind], say.twice(twice))];
}
