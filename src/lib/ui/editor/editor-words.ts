import type { Fill } from '$lib/core/notation/measure-patterns';
import type { Grain } from '$lib/core/notation/measure-grid';
import { techniqueLetter } from '$lib/core/notation/technique-letter';
import type { PassesAfter, Showing } from '$lib/core/tune/passes-after';
import type { MeasureSharing } from '$lib/core/tune/measure-sharing';
import { meterShape, type Meter } from '$lib/core/rhythm/meter';
import { numberWord } from '$lib/texts/number-words';
import type { Technique } from '$lib/core/tune/strike';
import { pitchName, tuningName, type StringNumber, type Tuning } from '$lib/core/tune/tuning';
import type { MelodyNote } from '$lib/core/tune/melody';

/** As a mark beside a fret: the letters of the tab, and the stroke of a brush. */
export function techniqueMark(technique: Technique): string | null {
  return technique === 'brush' ? '↓' : techniqueLetter(technique);
}

export const STRING_WORDS: Record<StringNumber, string> = {
  1: 'first string',
  2: 'second string',
  3: 'third string',
  4: 'fourth string',
  5: 'short string',
};

export const FILL_WORDS: Record<Fill, string> = {
  'note-brush-drone': 'Note, brush, drone',
  'note-drone': 'Note and drone in turn',
  'drop-thumb': 'With drop-thumb',
};

export function grainWords(meter: Meter): Record<Grain, string> {
  return {
    usual: 'As usual',
    halved: 'Halved',
    triplet: meter === '6/8' || meter === '9/8' ? 'In four' : 'In three',
  };
}

/** By how much a measure grows or shrinks at a touch; in compound meters half a beat is no whole number of slots. */
export function lengthSteps(meter: Meter): { by: number; sign: string; words: string }[] {
  const whole = { by: 1, sign: '1', words: 'One beat' };
  return meterShape(meter).division === 2 ? [{ by: 0.5, sign: '½', words: 'Half a beat' }, whole] : [whole];
}

/** `2½ beats`. */
export function beatsWords(beats: number): string {
  const whole = Math.floor(beats);
  const figure = `${whole > 0 || beats === 0 ? whole : ''}${beats > whole ? '½' : ''}`;
  return `${figure} ${beats > 1 ? 'beats' : 'beat'}`;
}

/** What became of tab from a melody: the notes that no string reaches. */
export function proposalWords(outOfReach: readonly MelodyNote[], tuning: Tuning): string {
  if (outOfReach.length === 0) return 'Every note of the melody is on the neck.';
  const pitches = outOfReach.map(({ pitch }) => pitchName(pitch) + String(Math.floor(pitch / 12) - 1));
  return `Not in reach in ${tuningName(tuning)}: ${listed(pitches)}. Write them where you want them.`;
}

/** The question that saving asks, and what each answer does. */
export function sharingWords({ labels, isBelow }: MeasureSharing, label: string) {
  const all = labels.length === 2 ? 'both' : `all ${numberWord(labels.length)}`;
  return {
    question: `${listed(labels)} share this measure.`,
    shared: `Change ${all}`,
    only: `Only ${label}`,
    history: isBelow
      ? 'The layers below keep what they have, and what was played on it stays there.'
      : `Change ${all}, and what you played on it stays with it. Change only ${label}, and it stays with the others.`,
  };
}

/** What becomes of the passes of a measure that was played already, in a sentence; `null` while they stay as they are. */
export function passesWords(after: PassesAfter, label: string): string | null {
  switch (after.kind) {
    case 'stay':
      return null;
    case 'other length':
      return `What you played on ${label} stays with it, though it is ${after.isLonger ? 'longer' : 'shorter'} now.`;
    case 'begins':
      return `${label} begins without passes; ${leftWords(after.left)}.`;
    case 'takes over':
      return `${label} takes over the passes of ${by(after.by) ?? 'the measure it becomes again'}; ${leftWords(after.left)}.`;
  }
}

function leftWords(left: Showing): string {
  const keeper = by(left);
  return keeper
    ? `those so far stay with ${keeper}`
    : 'those so far are kept, and come back when it is written so again';
}

/** Measures of the layer go before a layer below. */
function by({ labels, below }: Showing): string | null {
  return labels.length > 0 ? listed(labels) : below && `the ${below} layer`;
}

export function listed(words: readonly string[]): string {
  const last = words.at(-1) ?? '';
  return words.length < 2 ? last : `${words.slice(0, -1).join(', ')} and ${last}`;
}
