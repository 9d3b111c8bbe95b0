import type { Grain } from '$lib/core/notation/measure-grid';
import { techniqueLetter } from '$lib/core/notation/technique-letter';
import type { PassesAfter, Showing } from '$lib/core/tune/passes-after';
import type { MeasureSharing } from '$lib/core/tune/measure-sharing';
import { meterShape, type Meter } from '$lib/core/rhythm/meter';
import { say } from '$lib/texts/editor';
import { say as sayPanels } from '$lib/texts/editor-panels';
import { listed } from '$lib/texts/figures';
import type { Technique } from '$lib/core/tune/strike';
import { pitchName, tuningName, type Tuning } from '$lib/core/tune/tuning';
import type { MelodyNote } from '$lib/core/tune/melody';

/** As a mark beside a fret: the letters of the tab, and the stroke of a brush. */
export function techniqueMark(technique: Technique): string | null {
  return technique === 'brush' ? '↓' : techniqueLetter(technique);
}

export function grainWords(meter: Meter): Record<Grain, string> {
  return {
    ...sayPanels.grains,
    triplet: meter === '6/8' || meter === '9/8' ? sayPanels.inFour : sayPanels.inThree,
  };
}

/** By how much a measure grows or shrinks at a touch; in compound meters half a beat is no whole number of slots. */
export function lengthSteps(meter: Meter): { by: 0.5 | 1; sign: string }[] {
  const whole = { by: 1, sign: '1' } as const;
  return meterShape(meter).division === 2 ? [{ by: 0.5, sign: '½' }, whole] : [whole];
}

/** `2½ beats`. */
export function beatsWords(beats: number): string {
  const whole = Math.floor(beats);
  return say.beats(beats, `${whole > 0 || beats === 0 ? whole : ''}${beats > whole ? '½' : ''}`);
}

/** What became of tab from a melody: the notes that no string reaches. */
export function proposalWords(outOfReach: readonly MelodyNote[], tuning: Tuning): string {
  if (outOfReach.length === 0) return say.allOnNeck;
  const pitches = outOfReach.map(({ pitch }) => pitchName(pitch) + String(Math.floor(pitch / 12) - 1));
  return say.outOfReach(tuningName(tuning), pitches);
}

/** The question that saving asks, and what each answer does. */
export function sharingWords({ labels, isBelow }: MeasureSharing, label: string) {
  return {
    question: say.sharing(labels),
    shared: say.changeAll(labels.length),
    only: say.changeOnly(label),
    history: isBelow ? say.layersBelowKeep : say.passesFollow(labels.length, label),
  };
}

/** What becomes of the passes of a measure that was played already, in a sentence; `null` while they stay as they are. */
export function passesWords(after: PassesAfter, label: string): string | null {
  switch (after.kind) {
    case 'stay':
      return null;
    case 'other length':
      return say.otherLength(label, after.isLonger);
    case 'begins':
      return say.begins(label, by(after.left));
    case 'takes over':
      return say.takesOver(label, by(after.by), by(after.left));
  }
}

/** Measures of the layer go before a layer below. */
function by({ labels, below }: Showing): string | null {
  if (labels.length > 0) return listed(labels);
  return below ? say.layer(below) : null;
}
