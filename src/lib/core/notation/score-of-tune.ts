import { beatsToWholeNotes, type Meter } from '../rhythm/meter';
import { compareNotes } from '../tune/melody';
import { partPlaces, type Place } from '../tune/places';
import type { Figure, Id, MeasureLabel, Tune } from '../tune/tune';
import { soundingPitch, type Setup, type Tuning } from '../tune/tuning';
import { NO_SIGNS, type Score, type ScoreMeasure, type ScoreMeter, type ScoreNote } from './score';

/**
 * A tune in one layer as a score: each run of one letter of the form is that part with a repeat. Pitches are as they
 * sound; fingering is kept. A measure without tab or melody is silent.
 */
export function scoreOfTune(tune: Tune, layerId: Id): Score {
  const meter = scoreMeter(tune.meter);
  const runs = tune.form.match(/(.)\1*/g) ?? [];
  const measures = runs.flatMap((run) => partMeasures(tune, layerId, run.charAt(0), run.length, meter));
  const pickup = tune.pickup && measureOf(tune, tune.pickup, [], meter);
  return {
    number: null,
    title: tune.title,
    key: tune.key === '' ? null : tune.key,
    meter,
    tempo: tune.goalTempo,
    tuning: openTuning(tune),
    capo: tune.capo,
    voices: [{ name: tune.title, measures: pickup ? [pickup, ...measures] : measures }],
    order: null,
    warnings: [],
  };
}

/** The numbers of a meter. */
export function scoreMeter(meter: Meter): ScoreMeter {
  const [count = 4, unit = 4] = meter.split('/').map(Number);
  return { count, unit };
}

/** The open strings as a score has them, whose capo lies on all five: the short string's spike may differ from it. */
function openTuning({ tuning: [fifth, ...long], capo, spike }: Setup): Tuning {
  return [fifth + spike - capo, ...long];
}

function partMeasures(
  tune: Tune,
  layerId: Id,
  name: string,
  times: number,
  meter: ScoreMeter,
): ScoreMeasure[] {
  const places = partPlaces(tune, layerId, name);
  return places.map(({ figure, measure, index }: Place) => ({
    ...measureOf(tune, figure, measure.labels ?? [], meter),
    part: index === 0 ? name : null,
    opensRepeat: index === 0 && times > 1,
    timesPlayed: index === places.length - 1 && times > 1 ? times : 0,
    endsSection: index === places.length - 1 && times === 1,
  }));
}

function measureOf(
  tune: Tune,
  { beats, strikes, melody }: Pick<Figure, 'beats' | 'strikes' | 'melody'>,
  labels: readonly MeasureLabel[],
  meter: ScoreMeter,
): ScoreMeasure {
  const notes: readonly ScoreNote[] =
    strikes?.map(({ onset, duration, string, fret, technique, finger, weight }) => ({
      onset,
      duration,
      pitch: soundingPitch(tune, string, fret),
      ...(technique === 'tie' && { tied: true as const }),
      fingering: { string, fret, technique, ...(finger && { finger }), ...(weight && { weight }) },
    })) ??
    melody ??
    [];
  return {
    line: 1,
    column: 1,
    meter,
    length: beatsToWholeNotes(tune.meter, beats),
    notes: notes.toSorted(compareNotes),
    labels,
    ...NO_SIGNS,
  };
}
