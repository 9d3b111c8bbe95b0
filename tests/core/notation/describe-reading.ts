import type { Reading } from '../../../src/lib/core/notation/reading';
import type { Strike } from '../../../src/lib/core/tune/strike';

function strikeText({ onset, duration, string, fret, technique }: Strike): string {
  return `${onset.join('/')}+${duration.join('/')} ${string}:${fret} ${technique}`;
}

/** A reading as the fixtures write it down. */
export function describeReading({ title, form, tuning, pickup, parts, warnings }: Reading) {
  return {
    title,
    form,
    tuning: tuning?.join(' ') ?? null,
    pickup: pickup && { beats: pickup.beats, strikes: (pickup.strikes ?? []).map(strikeText) },
    parts: parts.map(({ name, measures }) => ({
      name,
      measures: measures.map(({ beats, sameAs, strikes }) => ({
        beats,
        sameAs: sameAs ? `${sameAs.part}${sameAs.index + 1}` : null,
        strikes: (strikes ?? []).map(strikeText),
      })),
    })),
    warnings: warnings.map(({ message }) => message),
  };
}
