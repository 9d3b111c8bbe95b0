/**
 * JSON with the keys of every object in code-unit order and no white space, numbers and strings as JSON.stringify
 * writes them (the form of RFC 8785): equal values, equal text. Fields that are undefined are left out. Throws a
 * RangeError for what is nested too deeply.
 */
export function canonicalJson(value: unknown): string {
  const ordered = inOrder(value);
  return ordered === UNORDERABLE ? spellOut(value) : (JSON.stringify(ordered) ?? 'null');
}

/** Stands for a value with keys that no object lists in code-unit order: the engine puts whole numbers first. */
const UNORDERABLE = Symbol('unorderable');

/**
 * The value itself where its keys stand in order, as in all that was read from a backup, else a copy in order. The
 * engine's own JSON.stringify then does the rest, four times as fast as spelling it out.
 */
function inOrder(value: unknown): unknown {
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) return itemsInOrder(value);
  const fields = value as Record<string, unknown>;
  const keys = Object.keys(fields);
  let isSame = true;
  for (let at = 1; at < keys.length && isSame; at++) isSame = keys[at - 1]! < keys[at]!;
  if (!isSame) keys.sort();
  const copy: Record<string, unknown> = {};
  for (const key of keys) {
    const field = fields[key];
    const ordered = typeof field === 'object' ? inOrder(field) : field;
    if (ordered === UNORDERABLE || key === '__proto__' || isDigit(key)) return UNORDERABLE;
    if (ordered !== field) isSame = false;
    copy[key] = ordered;
  }
  return isSame ? value : copy;
}

function itemsInOrder(items: readonly unknown[]): unknown {
  let isSame = true;
  const copy: unknown[] = [];
  for (const item of items) {
    const ordered = inOrder(item);
    if (ordered === UNORDERABLE) return UNORDERABLE;
    if (ordered !== item) isSame = false;
    copy.push(ordered);
  }
  return isSame ? items : copy;
}

function isDigit(key: string): boolean {
  const unit = key.charCodeAt(0);
  return unit >= 0x30 && unit <= 0x39 && key.length < 17;
}

function spellOut(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(spellOut).join(',')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value) ?? 'null';
  const fields = Object.entries(value as Record<string, unknown>)
    .filter(([, field]) => field !== undefined)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([key, field]) => `${JSON.stringify(key)}:${spellOut(field)}`);
  return `{${fields.join(',')}}`;
}
