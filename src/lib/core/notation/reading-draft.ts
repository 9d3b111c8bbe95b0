import { meterShape, TEMPO_MAX, TEMPO_MIN, type Meter } from '../rhythm/meter';
import { CAPO_MAX, KEY_MAX, TITLE_MAX } from '../tune/limits';
import type { TuneDraft } from '../tune/make-tune';
import type { Tuning } from '../tune/tuning';
import type { Reading } from './reading';

/** What stands in for everything that a source does not say. */
export interface ReadingDefaults {
  title: string;
  meter: Meter;
  tuning: Tuning;
  /** Beats of the meter per minute. */
  goalTempo: number;
}

/** A reading as a draft that the learner can look at, correct and keep; whatever is too long for the book is cut. */
export function draftOfReading(reading: Reading, defaults: ReadingDefaults): TuneDraft {
  const meter = reading.meter ?? defaults.meter;
  const tempo = Math.round(reading.tempo ?? defaults.goalTempo);
  const capo = Math.min(CAPO_MAX, Math.max(0, reading.capo ?? 0));
  const pickup = reading.pickup && reading.pickup.beats < meterShape(meter).beats ? reading.pickup : null;
  return {
    title: (reading.title ?? defaults.title).trim().slice(0, TITLE_MAX),
    key: (reading.key ?? '').slice(0, KEY_MAX),
    meter,
    tuning: reading.tuning ?? defaults.tuning,
    capo,
    // where a source does not say it, its capo raises all strings alike (see `scoreOfTune`)
    spike: Math.min(CAPO_MAX, Math.max(0, reading.spike ?? capo)),
    goalTempo: Math.min(TEMPO_MAX, Math.max(TEMPO_MIN, tempo)),
    form: reading.form,
    parts: reading.parts,
    pickup,
  };
}
