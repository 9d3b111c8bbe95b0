import { say } from '../../texts/backup-file';

/** Where a text stops being JSON (RFC 8259): line and column from 1. `null` for a text that is JSON. */
export function findJsonFault(text: string): { line: number; column: number; ended: boolean } | null {
  const at = faultOffset(text);
  if (at === null) return null;
  const before = text.slice(0, at);
  const line = before.split('\n').length;
  return { line, column: at - before.lastIndexOf('\n'), ended: at >= text.length };
}

/** What is said of a text that is not JSON; `line` is that of its first character, from 1. */
export function sayJsonFault(text: string, line = 1): string {
  const fault = findJsonFault(text);
  if (!fault) return say.notJson();
  // a picture, a table, an archive: of no use to name a place in it
  if (fault.line === 1 && fault.column === 1 && line === 1 && !fault.ended) return say.otherKind;
  const at = [fault.line + line - 1, fault.column] as const;
  return fault.ended ? say.endsTooSoon(...at) : say.notJson(...at);
}

/** Deeper than any record nests, and no deeper than costs nothing. */
const DEPTH_MAX = 100;
/** Texts of fewer characters cannot nest so deep that reading them takes memory to speak of. */
const SHORT = 100_000;

/** Whether a text nests so deep that the engine's reader of JSON, which takes some sixty bytes a bracket, must not be given it. */
export function nestsTooDeep(text: string): boolean {
  if (text.length < SHORT) return false;
  let depth = 0;
  let isInString = false;
  for (let at = 0; at < text.length && depth <= DEPTH_MAX; at++) {
    const letter = text[at];
    if (letter === '"') isInString = !isInString;
    else if (isInString) at += letter === '\\' ? 1 : 0;
    else if (letter === '[' || letter === '{') depth += 1;
    else if (letter === ']' || letter === '}') depth -= 1;
  }
  return depth > DEPTH_MAX;
}

const SPACE = /[ \t\n\r]*/y;
const SCALAR =
  /"(?:[ !#-[\]-\u{10ffff}]|\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4}))*"|-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?|true|false|null/uy;
const KEY = /"(?:[ !#-[\]-\u{10ffff}]|\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4}))*"[ \t\n\r]*:/uy;

/** Offset of the first character that cannot be there; a list of open brackets stands in for recursion. */
function faultOffset(text: string): number | null {
  let at = 0;
  const skip = (pattern: RegExp): boolean => {
    pattern.lastIndex = at;
    if (!pattern.test(text)) return false;
    at = pattern.lastIndex;
    return true;
  };
  const open: ('{' | '[')[] = [];
  let wants: 'value' | 'first' | 'more' = 'value';
  for (;;) {
    skip(SPACE);
    const inside = open.at(-1);
    const close = inside === '{' ? '}' : ']';
    if (wants === 'more' && inside === undefined) return at < text.length ? at : null;
    if (wants !== 'value' && inside !== undefined && text[at] === close) {
      open.pop();
      at += 1;
      wants = 'more';
      continue;
    }
    if (wants === 'more') {
      if (text[at] !== ',') return at;
      at += 1;
      skip(SPACE);
    }
    if (inside === '{' && !skip(KEY)) return at;
    skip(SPACE);
    const opener = text[at];
    if (opener === '{' || opener === '[') {
      open.push(opener);
      at += 1;
      wants = 'first';
    } else if (skip(SCALAR)) wants = 'more';
    else return at;
  }
}
