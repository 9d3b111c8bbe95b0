/** One line of a tune, comments taken off and continued lines joined. */
export interface AbcLine {
  /** From 1 in the whole text. */
  line: number;
  /** `M` in `M:4/4`; `null` for music. */
  field: string | null;
  text: string;
  /** Where `text` begins in its line, from 1. */
  column: number;
}

export interface AbcTuneText {
  number: number | null;
  title: string | null;
  /** Offsets in the text: the tune's `X:` and what follows its last line. */
  start: number;
  end: number;
  /** The line of `X:`, from 1. */
  line: number;
}

/** More than any tunebook holds. */
export const TUNES_MAX = 50_000;
/** Characters of a field with all that continues it. */
const CONTINUED_MAX = 10_000;

/** Letters that begin a field inside a tune; the others are notes there (ABC 2.1, section 3). */
const FIELD_LINE = /^([H-Zh-z+]):(?![|:])/;
const HEAD_FIELD_LINE = /^([A-Za-z+]):(?![|:])/;

/**
 * The tunes of a text, in order, found by their `X:` lines; each lasts to a blank line, the next `X:` or the end (ABC 2.1,
 * section 2.2). A text without any `X:` but with a key is one tune. At most 50,000.
 */
export function listAbcTunes(text: string): AbcTuneText[] {
  const tunes: AbcTuneText[] = [];
  let open = null as AbcTuneText | null;
  let line = 1;
  let keyless = text.length;
  const close = (end: number): void => {
    if (open) tunes.push({ ...open, end });
    open = null;
  };
  for (let start = 0; start < text.length && tunes.length < TUNES_MAX; line += 1) {
    const next = text.indexOf('\n', start);
    const end = next === -1 ? text.length : next + 1;
    const first = text.charAt(start);
    if (first === 'X' && text.charAt(start + 1) === ':') {
      close(start);
      const number = /^X:\s*(\d{1,9})/.exec(text.slice(start, start + 40))?.[1];
      open = { number: number === undefined ? null : Number(number), title: null, start, end, line };
    } else if (open && (first === '\n' || first === '\r' || text.slice(start, end).trim() === '')) {
      close(start);
    } else if (open && first === 'T' && text.charAt(start + 1) === ':' && open.title === null) {
      open = { ...open, title: plainText(text.slice(start + 2, end)) || null };
    } else if (!open && first === 'K' && text.charAt(start + 1) === ':') {
      keyless = Math.min(keyless, start);
    }
    start = end;
  }
  if (tunes.length < TUNES_MAX) close(text.length);
  if (tunes.length > 0 || keyless === text.length) return tunes;
  const title = /^T:(.*)$/m.exec(text)?.[1];
  return [{ number: null, title: plainText(title ?? '') || null, start: 0, end: text.length, line: 1 }];
}

/** The lines of one tune, as they are asked for. `firstLine` is the number of its first line in the whole text. */
export function* abcLines(text: string, firstLine: number): Generator<AbcLine, void> {
  let isHead = true;
  let before: AbcLine | null = null;
  for (const [raw, line] of rawLines(text, firstLine)) {
    const bare = withoutComment(raw);
    if (bare.trim() === '') continue;
    const field = (isHead ? HEAD_FIELD_LINE : FIELD_LINE).exec(bare)?.[1] ?? null;
    if (field === '+' && before) {
      if (before.text.length < CONTINUED_MAX) before.text += ` ${bare.slice(2).trim()}`;
      continue;
    }
    if (before) yield before;
    if (field === 'K') isHead = false;
    const continues = field === null && bare.trimEnd().endsWith('\\');
    const music = continues ? bare.trimEnd().slice(0, -1) : bare;
    const [own, column] = field === null ? [music, 1] : [bare.slice(2), 3];
    before = { line, field, text: own, column };
  }
  if (before) yield before;
}

function* rawLines(text: string, firstLine: number): Generator<[raw: string, line: number], void> {
  const ends = /\r\n|\n|\r/g;
  let start = 0;
  let line = firstLine;
  for (let end = ends.exec(text); end; end = ends.exec(text)) {
    yield [text.slice(start, end.index), line];
    start = ends.lastIndex;
    line += 1;
  }
  yield [text.slice(start), line];
}

/** A text of the source as it is read aloud: escapes of letters and of HTML are the letters that they mean. */
export function plainText(text: string): string {
  return withoutComment(text)
    .replace(/\\u([0-9a-fA-F]{4})/g, (_, code: string) => String.fromCharCode(parseInt(code, 16)))
    .replace(/\\([`'^~":,=uv/o])([A-Za-z])/g, (_, mark: string, letter: string) =>
      (letter + (MARKS[mark] ?? '')).normalize('NFC'),
    )
    .replace(/&(amp|lt|gt|quot|apos|#39);/g, (_, name: string) => ENTITIES[name] ?? '')
    .replace(/\\([%&\\])/g, '$1')
    .replace(/\s+/g, ' ')
    .trim();
}

/** The way back: a text on one line, so that `plainText` reads it as it is. */
export function escapedText(text: string): string {
  return text
    .replace(/[\s\p{Cc}]+/gu, ' ')
    .replace(/&(?=(?:amp|lt|gt|quot|apos|#39);)/g, '&amp;')
    .replaceAll('%', '\\%');
}

/** Combining marks of ABC 2.1, section 8.2. */
const MARKS: Record<string, string> = {
  ...{ '`': '\u0300', "'": '\u0301', '^': '\u0302', '~': '\u0303', '"': '\u0308', ':': '\u0308' },
  ...{ ',': '\u0327', '=': '\u0304', u: '\u0306', v: '\u030C', o: '\u030A' },
};
const ENTITIES: Record<string, string> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'", '#39': "'" };

function withoutComment(line: string): string {
  const at = line.search(/(?<!\\)%/);
  return at === -1 ? line : line.slice(0, at);
}
