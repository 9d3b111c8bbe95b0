import { expect, test } from 'vitest';
import { recordFaults } from '../../src/lib/core/book/schema';
import { isSealed, isTune } from '../../src/lib/store/row-shapes';
import demo from '../../sample-data/demo-book.json';

/** What may stand where something else belongs. `undefined`: the field is gone. */
const GARBAGE = [undefined, null, 'x', NaN, -1, 0, 1e12, true, [], {}, [null]];

/** Fields that no screen reckons with: what is wrong in one of them stops nothing. */
const HARMLESS = [
  /(^|\.)(editedAt|changedAt)(\.|$)/,
  /^(origin|form|hands|note)$/,
  // a fraction is reckoned with whatever it says
  /^(figures|pickup)\.(\*\.)?(strikes|melody)\.\*\.(onset|duration)\.\*$/,
  /^parts\.\*\.measures\.\*$/,
  // a part that is named and not there is an empty one
  /^parts\.\*(\.name)?$/,
  /^layers\.\*$/,
  /^(tuning|figures\.\*\.strikes\.\*\.fret|pickup\.strikes\.\*\.fret|capo|spike)(\.|$)/,
  // a passage that no tune has
  /^drills\.\*\.passage\.\w+$/,
  /^log\.\*\.(fromMemory|missAt|outcome|id|drillId)$/,
  /^(drills|drills\.\*)$/,
];

type Path = readonly (string | number)[];
type Parent = Record<string | number, unknown>;

function* paths(value: unknown, path: Path = []): Generator<Path> {
  if (path.length > 0) yield path;
  if (typeof value !== 'object' || value === null) return;
  const keys = Array.isArray(value) ? value.map((_, index) => index) : Object.keys(value);
  for (const key of keys) yield* paths((value as Parent)[key], [...path, key]);
}

function damaged(record: object, path: Path, garbage: unknown): unknown {
  const copy = structuredClone(record) as Parent;
  const parent = path.slice(0, -1).reduce<Parent>((at, key) => at[key] as Parent, copy);
  const last = path.at(-1) ?? '';
  if (garbage !== undefined) parent[last] = garbage;
  else if (Array.isArray(parent)) parent.splice(Number(last), 1);
  else Reflect.deleteProperty(parent, last);
  return copy;
}

const patternOf = (path: Path): string =>
  path.map((key) => (typeof key === 'number' || key.length === 36 ? '*' : key)).join('.');

/** Patterns of what the quick check lets through and the schema does not. */
function letThrough(
  kind: 'tunes' | 'sittings',
  record: object,
  isWhole: (row: unknown) => boolean,
): Set<string> {
  const found = new Set<string>();
  for (const path of paths(record)) {
    const pattern = patternOf(path);
    if (found.has(pattern) || HARMLESS.some((harmless) => harmless.test(pattern))) continue;
    for (const garbage of GARBAGE) {
      const row = damaged(record, path, garbage);
      if (isWhole(row) && recordFaults(kind, row, 0).length > 0) found.add(`${pattern} = ${String(garbage)}`);
    }
  }
  return found;
}

test('no garbage in a record that a screen could trip over passes for one, and every whole record does', () => {
  const { tunes, sittings } = demo;
  expect(tunes.filter(isTune)).toEqual(tunes);
  expect(sittings.filter(isSealed)).toEqual(sittings);
  for (const tune of tunes.slice(0, 2)) expect([...letThrough('tunes', tune, isTune)]).toEqual([]);
  expect([...letThrough('sittings', sittings[0]!, isSealed)]).toEqual([]);
});
