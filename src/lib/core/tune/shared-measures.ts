import type { PartDraft } from './make-tune';
import type { MelodyNote } from './melody';
import type { Strike } from './strike';

/** What a measure sounds, and how long it is. */
export interface MeasureContent {
  /** Of the tune's meter, a multiple of one half. */
  beats: number;
  strikes: readonly Strike[] | null;
  melody?: readonly MelodyNote[];
}

/**
 * The same parts, with every measure that equals an earlier one (same length, same strikes; same melody where there are
 * none) pointing at the first of its kind. Measures without either have nothing to compare and are left as they are; so is
 * a `sameAs` set by hand.
 */
export function findSharedMeasures(parts: readonly PartDraft[]): PartDraft[] {
  const first = new Map<string, { part: string; index: number }>();
  return parts.map(({ name, measures }) => ({
    name,
    measures: measures.map((measure, index) => {
      const content = contentKey(measure);
      if (measure.sameAs || content === null) return measure;
      const sameAs = first.get(content) ?? null;
      if (!sameAs) first.set(content, { part: name, index });
      return { ...measure, sameAs };
    }),
  }));
}

/** There is something to show and to sound: tab, or a melody without fingering. */
export function isWritten({ strikes, melody }: Pick<MeasureContent, 'strikes' | 'melody'>): boolean {
  return strikes !== null || melody !== undefined;
}

/** What is seen of measures, as it is called. */
export type Writing = 'tab' | 'melody';

/** Tab, as soon as one of the measures has any; `null` when nothing is written of them. */
export function writingOf(measures: readonly Pick<MeasureContent, 'strikes' | 'melody'>[]): Writing | null {
  if (measures.some(({ strikes }) => strikes)) return 'tab';
  return measures.some(isWritten) ? 'melody' : null;
}

/** What a measure sounds, as a string: equal strings, equal measures. `null` without tab or melody: nothing to compare. */
export function contentKey({ beats, strikes, melody }: MeasureContent): string | null {
  const notes =
    strikes?.map(({ onset, duration, string, fret, technique, finger, weight }) =>
      [...onset, ...duration, string, fret, technique, finger ?? '', weight ?? ''].join(' '),
    ) ??
    melody?.map(({ onset, duration, pitch, tied }) =>
      [...onset, ...duration, `pitch ${pitch}`, tied ? 'tied' : ''].join(' '),
    );
  return notes ? [beats, ...notes].join(',') : null;
}

/** They sound the same and are as long, without tab and melody too. */
export function sameContent(a: MeasureContent, b: MeasureContent): boolean {
  return a.beats === b.beats && contentKey(a) === contentKey(b);
}

/** As `contentKey`, and with the melody under a tab, which does not tell measures apart: equal strings, the same writing. */
export function writingKey({ beats, strikes, melody }: MeasureContent): string {
  const tab = contentKey({ beats, strikes });
  return JSON.stringify([beats, tab, melody ? contentKey({ beats, strikes: null, melody }) : null]);
}
