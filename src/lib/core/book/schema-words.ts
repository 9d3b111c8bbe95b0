import * as v from 'valibot';
import type { Rational } from '../rhythm/rational';
import { compareNotes } from '../tune/melody';
import { compareStrikes, FINGERS, TECHNIQUES, WEIGHTS } from '../tune/strike';
import { say } from '../../texts/damage';
import { ID_PATTERN } from './id';
import * as limits from './limits';
import { show } from './say-damage';

/** A number within bounds, both included. */
export function numberWithin(min: number, max: number) {
  const outside = ({ input }: { input: number }): string => say.outside(show(input), min, max);
  return v.pipe(v.number(), v.minValue(min, outside), v.maxValue(max, outside));
}

export function wholeWithin(min: number, max: number) {
  return v.pipe(
    numberWithin(min, max),
    v.integer(({ input }) => say.notWhole(show(input))),
  );
}

/** Text of a number of characters (UTF-16 code units), both bounds included. */
export function textOf(min: number, max: number) {
  const wrong = ({ input }: { input: string }): string => say.characters(input.length, min, max);
  return v.pipe(v.string(), v.minLength(min, wrong), v.maxLength(max, wrong));
}

/** An array with a number of items within bounds, both included. */
export function listOf<const Item extends v.GenericSchema>(item: Item, min: number, max: number) {
  const wrong = ({ input }: { input: readonly unknown[] }): string => say.items(input.length, min, max);
  return v.pipe(v.array(item), v.minLength(min, wrong), v.maxLength(max, wrong), v.readonly());
}

/** Keys that `v.record` passes over unread. */
const UNREAD_KEYS = ['__proto__', 'constructor', 'prototype'];

/** Values by the id of what they belong to. What `v.record` would take for an empty one, a list or unread keys, is refused before. */
export function byId<const Value extends v.GenericSchema>(value: Value) {
  return v.pipe(
    v.unknown(),
    v.check(
      (input) => !Array.isArray(input) && !UNREAD_KEYS.some((key) => Object.hasOwn(Object(input), key)),
      () => say.notById,
    ),
    v.record(idSchema, value),
    v.readonly(),
  );
}

export function halves(min: number, max: number) {
  return v.pipe(
    numberWithin(min, max),
    v.multipleOf(0.5, ({ input }) => say.notHalves(show(input))),
  );
}

/** True when each type is assignable to the other: a schema and the interface that documents it. */
export type Same<A, B> = [A] extends [B] ? ([B] extends [A] ? true : false) : false;

/** Compiles for `true` only. */
export type Agrees<T extends true> = T;

export const idSchema = v.pipe(
  v.string(),
  v.regex(ID_PATTERN, ({ input }) => say.notId(show(input))),
);

const notATime = ({ input }: { input: number }): string => say.notTime(show(input));

export const timeSchema = v.pipe(
  v.number(),
  v.integer(notATime),
  v.minValue(limits.TIME_MIN, notATime),
  v.maxValue(limits.TIME_MAX, notATime),
);

export const momentFields = {
  at: timeSchema,
  offsetMin: wholeWithin(limits.OFFSET_MIN, limits.OFFSET_MAX),
};

export const momentSchema = v.strictObject(momentFields);

export const originSchema = v.picklist(['own', 'demo'] as const);

const pitchSchema = wholeWithin(limits.PITCH_MIN, limits.PITCH_MAX);

export const tuningSchema = v.pipe(
  v.strictTuple([pitchSchema, pitchSchema, pitchSchema, pitchSchema, pitchSchema]),
  v.readonly(),
);

export const rationalSchema = v.pipe(
  v.strictTuple([v.number(), v.number()]),
  v.readonly(),
  v.check(isProper, ({ input }) => say.notFraction(show(input))),
);

export const onsetSchema = v.pipe(
  rationalSchema,
  v.check(
    ([numerator]) => numerator >= 0,
    ({ input }) => say.beforeMeasure(show(input)),
  ),
);

const durationSchema = v.pipe(
  rationalSchema,
  v.check(
    ([numerator]) => numerator > 0,
    ({ input }) => say.notLength(show(input)),
  ),
);

export const melodySchema = v.pipe(
  listOf(
    v.strictObject({
      onset: onsetSchema,
      duration: durationSchema,
      pitch: wholeWithin(limits.MELODY_PITCH_MIN, limits.MELODY_PITCH_MAX),
      tied: v.exactOptional(v.literal(true)),
    }),
    0,
    limits.STRIKES_MAX,
  ),
  v.check(
    (notes) => notes.every((note, index) => index === 0 || compareNotes(notes[index - 1]!, note) <= 0),
    () => say.melodyOrder,
  ),
);

export const strikesSchema = v.pipe(
  listOf(
    v.strictObject({
      onset: onsetSchema,
      duration: durationSchema,
      string: v.picklist([1, 2, 3, 4, 5] as const),
      fret: wholeWithin(0, limits.FRET_MAX),
      technique: v.picklist(TECHNIQUES),
      finger: v.exactOptional(v.picklist(FINGERS)),
      weight: v.exactOptional(v.picklist(WEIGHTS)),
    }),
    0,
    limits.STRIKES_MAX,
  ),
  v.check(
    (strikes) =>
      strikes.every((strike, index) => index === 0 || compareStrikes(strikes[index - 1]!, strike) <= 0),
    () => say.strikeOrder,
  ),
);

/** The first text that a list holds twice, or `undefined`. */
export function repeated(texts: readonly string[]): string | undefined {
  const seen = new Set<string>();
  return texts.find((text) => seen.size === seen.add(text).size);
}

function isProper([numerator, denominator]: Rational): boolean {
  if (!Number.isSafeInteger(numerator) || !Number.isInteger(denominator)) return false;
  if (Math.abs(numerator) > limits.WHOLE_NOTES_MAX * denominator) return false;
  if (denominator < 1 || denominator > limits.DENOMINATOR_MAX) return false;
  let [a, b] = [Math.abs(numerator), denominator];
  while (b !== 0) [a, b] = [b, a % b];
  return a === 1;
}
