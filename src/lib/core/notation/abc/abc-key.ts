import { sharpsOf } from '../key-words';

/** What `K:` says: the alteration of each letter, in semitones, and how the octave of the written notes is moved. */
export interface AbcKey {
  alterations: Readonly<Record<string, number>>;
  /** As a player would say it; `null` when there is none. */
  name: string | null;
  /** Added to every written note, in semitones (`transpose=`, `octave=`, clefs with 8). */
  moved: number;
}

export const NO_KEY: AbcKey = { alterations: {}, name: null, moved: 0 };

/** What follows a tonic, in its first three letters, as the mode that it names (ABC 2.1, section 3.1.14). */
const MODES: Record<string, string> = {
  ...{ '': 'major', maj: 'major', ion: 'major', m: 'minor', min: 'minor', aeo: 'minor' },
  ...{ mix: 'mixolydian', dor: 'dorian', phr: 'phrygian', lyd: 'lydian', loc: 'locrian' },
};
/** Only what is written after the tonic is altered (section 3.1.14). */
const EXPLICIT = 'exp';
const SHARP_ORDER = 'FCGDAEB';
const ACCIDENTALS: Record<string, number> = { '^^': 2, '^': 1, '=': 0, _: -1, __: -2 };

/** The alteration that an accidental mark asks for, in semitones. */
export function alterationOf(mark: string): number {
  return ACCIDENTALS[mark] ?? 0;
}

/** Reads the text after `K:`; `null` when it names no key that the standard knows. */
export function readKey(text: string, before: AbcKey): AbcKey | null {
  const moved = movedBy(text, before.moved);
  const bare = text.replace(/\b(?:clef|middle|transpose|octave|stafflines|m|t)\s*=\s*\S+/g, ' ').trim();
  if (/^(?:none\b)?$/i.test(bare) && text.trim() !== '') {
    return bare === '' ? { ...before, moved } : { alterations: {}, name: null, moved };
  }
  if (bare === '') return { ...NO_KEY, moved };
  if (/^H[Pp]\b/.test(bare)) return { alterations: { F: 1, C: 1 }, name: 'A mixolydian', moved };
  const found = /^([A-G])([#b]?)\s*([A-Za-z]*)/.exec(bare);
  if (!found) return null;
  const [whole, tonic = 'C', accidental = '', modeText = ''] = found;
  const isClef = /^(?:treble|bass|alto|tenor|perc)/i.test(modeText);
  const mode = isClef ? '' : modeText.slice(0, 3).toLowerCase();
  const named = mode === EXPLICIT ? 'major' : MODES[mode];
  if (named === undefined) return null;
  const key = tonic + accidental;
  const alterations = mode === EXPLICIT ? {} : signature(sharpsOf(key, named));
  for (const [, mark = '', letter = ''] of bare.slice(whole.length).matchAll(/(\^\^?|__?|=)([A-Ga-g])/g)) {
    alterations[letter.toUpperCase()] = alterationOf(mark);
  }
  return { alterations, name: named === 'major' ? key : `${key} ${named}`, moved };
}

function signature(sharps: number): Record<string, number> {
  const alterations: Record<string, number> = {};
  for (let place = 0; place < Math.min(7, Math.abs(sharps)); place += 1) {
    const letter = sharps > 0 ? SHARP_ORDER.charAt(place) : SHARP_ORDER.charAt(6 - place);
    alterations[letter] = Math.sign(sharps);
  }
  return alterations;
}

function movedBy(text: string, before: number): number {
  const transpose = /\b(?:transpose|t)\s*=\s*(-?\d{1,2})\b/.exec(text)?.[1];
  const octave = /\boctave\s*=\s*(-?\d)\b/.exec(text)?.[1];
  const clef = /\b(?:treble|bass|alto|tenor)\d?([-+])8\b/.exec(text)?.[1];
  if (transpose === undefined && octave === undefined && clef === undefined) return before;
  return Number(transpose ?? 0) + 12 * Number(octave ?? 0) + (clef === '-' ? -12 : clef === '+' ? 12 : 0);
}
