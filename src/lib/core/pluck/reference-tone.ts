import type { PluckCue } from '../rhythm/pluck-cue';
import type { Segment } from '../rhythm/segment';
import type { ReferenceTone } from '../tune/retune';

/** Struck again as it fades, every two seconds, for two minutes: long enough to turn a peg by. */
const TEMPO = 60;
const BEATS_APART = 2;
const TIMES = 60;

/** What the engine plays for one string to be tuned by: the string alone, without a click. */
export function referenceSegments({ string, midi }: ReferenceTone): Segment[] {
  const plucks = Array.from({ length: TIMES }, (_, index): PluckCue => ({
    at: [index * BEATS_APART, 1],
    string,
    pitch: midi,
  }));
  const measures = Array.from({ length: TIMES }, () => BEATS_APART);
  return [
    { id: `tone-${string}`, kind: 'pass', meter: '2/4', tempo: TEMPO, pattern: 'silent', measures, plucks },
  ];
}
