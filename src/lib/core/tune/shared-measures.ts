import type { MeasureDraft, PartDraft } from './make-tune';

/**
 * The same parts, with every measure that equals an earlier one (same length, same strikes; same melody where there are none) pointing at the first of
 * its kind. Measures without tab have nothing to compare and are left as they are; so is a `sameAs` set by hand.
 */
export function findSharedMeasures(parts: readonly PartDraft[]): PartDraft[] {
  const first = new Map<string, { part: string; index: number }>();
  return parts.map(({ name, measures }) => ({
    name,
    measures: measures.map((measure, index) => {
      const content = measureContent(measure);
      if (measure.sameAs || content === null) return measure;
      const sameAs = first.get(content) ?? null;
      if (!sameAs) first.set(content, { part: name, index });
      return { ...measure, sameAs };
    }),
  }));
}

function measureContent({ beats, strikes, melody }: MeasureDraft): string | null {
  const notes =
    strikes?.map(({ onset, duration, string, fret, technique, finger, weight }) =>
      [...onset, ...duration, string, fret, technique, finger ?? '', weight ?? ''].join(' '),
    ) ??
    melody?.map(({ onset, duration, pitch, tied }) =>
      [...onset, ...duration, `pitch ${pitch}`, tied ? 'tied' : ''].join(' '),
    );
  return notes ? [beats, ...notes].join(',') : null;
}
