import type { Rational } from '../../rhythm/rational';
import type { MeasureLabel } from '../../tune/tune';
import { plainText } from './abc-source';

/**
 * Sets the syllables of a `w:` line under the notes of the line above it (ABC 2.1, section 5.1): `-` and spaces part
 * syllables, `_` holds one, `*` leaves a note out, `~` is a space in a syllable.
 */
export function placeWords(
  text: string,
  sung: readonly { measure: { labels: MeasureLabel[] }; onset: Rational }[],
): void {
  let place = 0;
  for (const [token] of text.matchAll(/[_*|-]|(?:\\-|[^\s_*|-])+/g)) {
    if (token === '|') {
      const here = sung[place - 1]?.measure;
      while (place < sung.length && sung[place]?.measure === here) place += 1;
      continue;
    }
    if (token === '-') continue;
    const note = sung[place];
    if (!note) return;
    place += 1;
    if (token === '_' || token === '*') continue;
    const word = plainText(token.replace(/\\-/g, '-').replace(/~/g, ' '));
    if (word !== '') note.measure.labels.push({ onset: note.onset, kind: 'word', text: word });
  }
}
