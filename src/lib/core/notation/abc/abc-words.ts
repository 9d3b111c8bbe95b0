import type { Rational } from '../../rhythm/rational';
import type { MeasureLabel } from '../../tune/tune';
import { escapedText, plainText } from './abc-source';

/** A syllable with the hyphen that joins it to the next, or one of the signs that stand for a note or a bar line. */
const TOKEN = /[_*]-?|[|-]|(?:\\-|[^\s_*|-])+-?/g;

/**
 * Sets the syllables of a `w:` line under the notes of the line above it (ABC 2.1, section 5.1): spaces part them, and `-` right
 * after one that goes on; a `-` by itself and `_` hold the one before, `*` leaves a note out, `~` is a space in a syllable,
 * `|` goes on to the next measure.
 */
export function placeWords(
  text: string,
  sung: readonly { measure: { labels: MeasureLabel[] }; onset: Rational }[],
): void {
  let place = 0;
  for (const [token] of text.matchAll(TOKEN)) {
    if (token === '|') {
      const here = sung[place - 1]?.measure;
      while (place < sung.length && sung[place]?.measure === here) place += 1;
      continue;
    }
    const note = sung[place];
    if (!note) return;
    place += 1;
    if (/^[_*-]/.test(token)) continue;
    const word = plainText(token.replace(/\\-/g, '-').replace(/~/g, ' '));
    if (word !== '') note.measure.labels.push({ onset: note.onset, kind: 'word', text: word });
  }
}

/**
 * The `w:` line for notes with a word, or none, each; `null` when it is empty. See `canBeSung` for the words that it can hold.
 */
export function wordsLine(words: readonly (string | null)[]): string | null {
  const sung = words.slice(0, words.findLastIndex((word) => word !== null) + 1);
  return sung.length === 0
    ? null
    : `w:${sung.map((word) => (word === null ? '*' : syllable(word))).join(' ')}`;
}

/** True of a text that a `w:` line can say: `_`, `*`, `|` and `~` have no escape there. */
export function canBeSung(text: string): boolean {
  return !/[_*|~\\]|^-|--$/.test(text) && text.trim() === text && text !== '';
}

function syllable(text: string): string {
  const [, body = text, goesOn = ''] = /^(.*?)(-?)$/.exec(text) ?? [];
  return escapedText(body).replaceAll('-', '\\-').replaceAll(' ', '~') + goesOn;
}
