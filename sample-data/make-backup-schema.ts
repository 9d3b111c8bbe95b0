/**
 * Writes static/backup-schema.json, the JSON Schema of a backup file: `npx tsx sample-data/make-backup-schema.ts`. It is made from
 * the schemas by which the app checks a backup (src/lib/core/book/schema.ts); to be made anew when those change.
 */
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { toJsonSchema } from '@valibot/to-json-schema';
import * as v from 'valibot';
import { BACKUP_FORMAT, BACKUP_VERSION } from '../src/lib/core/book/backup-check';
import { RECORDS_MAX } from '../src/lib/core/book/limits';
import { sealedSittingSchema, settingRowSchema, tuneSchema } from '../src/lib/core/book/schema';
import * as words from '../src/lib/core/book/schema-words';
import { SETTING_NAMES, SETTING_RULES } from '../src/lib/core/book/settings';

const countSchema = words.wholeWithin(0, Number.MAX_SAFE_INTEGER);

const backupSchema = v.strictObject({
  format: v.literal(BACKUP_FORMAT),
  version: words.wholeWithin(1, BACKUP_VERSION),
  exportedAt: words.momentSchema,
  counts: v.strictObject({
    ...{ tunes: countSchema, sittings: countSchema, settings: countSchema },
    ...{ drills: countSchema, passes: countSchema },
  }),
  settings: words.listOf(settingRowSchema, 0, RECORDS_MAX),
  sittings: words.listOf(sealedSittingSchema, 0, RECORDS_MAX),
  tunes: words.listOf(tuneSchema, 0, RECORDS_MAX),
  checksum: v.pipe(v.string(), v.regex(/^[0-9a-f]{64}$/)),
});

const ABOUT = [
  'A backup of Phrasewright: everything that one learner keeps, as JSON in UTF-8, packed by gzip when the name ends in .gz.',
  'The app writes one field or record a line; any layout is read, in files up to 10 million characters.',
  'Times are Unix milliseconds in UTC; offsetMin is local time minus UTC in minutes. Onsets and durations are fractions of a',
  'whole note, [numerator, denominator], in lowest terms. Tempos are beats of the meter a minute. Tunings are MIDI note',
  'numbers from the fifth string.',
  'checksum is the SHA-256, in hex, of the JSON of { settings, sittings, tunes } in the form of RFC 8785: keys in code-unit',
  'order, no white space.',
  'What a schema cannot say, the app checks as well: every id is unique and names a record that is there, strikes lie within',
  'their measure, strikes and notes are in order, counts and checksum are right.',
].join(' ');

type JsonSchema = ReturnType<typeof toJsonSchema>;

/** What the value of a setting may be, in words: its rules are functions (core/book/settings.ts). */
function settingsByKey(row: JsonSchema): JsonSchema {
  const { properties = {}, ...rest } = row;
  const oneOf = SETTING_NAMES.map((key) => ({
    properties: { key: { const: key }, value: { description: SETTING_RULES[key].means() } },
  }));
  return { ...rest, properties, required: ['key', 'value', 'editedAt'], oneOf };
}

/** The text of the file. */
export function makeBackupSchema(): string {
  const schema = toJsonSchema(backupSchema, {
    target: 'draft-2020-12',
    // a pipe's last schema says what it takes: those before it only refuse
    typeMode: 'output',
    // rules across fields have no words in JSON Schema; `ABOUT` tells them
    ignoreActions: ['check', 'raw_check', 'guard', 'readonly'],
    definitions: {
      id: words.idSchema,
      time: words.timeSchema,
      moment: words.momentSchema,
      tuning: words.tuningSchema,
      fraction: words.rationalSchema,
      onset: words.onsetSchema,
      strikes: words.strikesSchema,
      melody: words.melodySchema,
      setting: settingRowSchema,
      sitting: sealedSittingSchema,
      tune: tuneSchema,
    },
    overrideSchema: ({ valibotSchema, jsonSchema }) =>
      valibotSchema === settingRowSchema ? settingsByKey(jsonSchema) : undefined,
  });
  const { $schema, ...body } = schema;
  const title = 'Phrasewright backup';
  return `${JSON.stringify({ $schema, title, description: ABOUT, ...body }, null, 2)}\n`;
}

const file = fileURLToPath(new URL('../static/backup-schema.json', import.meta.url));
if (process.argv[1] === fileURLToPath(import.meta.url)) writeFileSync(file, makeBackupSchema());
