import { emptyParts, makeTune } from '../../../src/lib/core/tune/make-tune';
import type { Passage } from '../../../src/lib/core/tune/passage';
import { figurePassages, seamPassages } from '../../../src/lib/core/tune/places';
import type { Tune } from '../../../src/lib/core/tune/tune';
import type {
  Correction,
  Drill,
  LogEntry,
  Pass,
  SealedSitting,
} from '../../../src/lib/core/practice/records';
import { DAY_MS, type Moment } from '../../../src/lib/core/time/moment';

/** 2026-03-02 18:00 UTC, the first evening of every test. */
export const FIRST_EVENING = Date.UTC(2026, 2, 2, 18);

export function evening(day: number, seconds = 0): Moment {
  return { at: FIRST_EVENING + day * DAY_MS + seconds * 1000, offsetMin: 0 };
}

/** An invented tune; ids begin with `name`. */
export function testTune(
  name: string,
  form = 'AABB',
  counts: readonly number[] = [4, 4],
  goalTempo = 100,
): Tune {
  let next = 0;
  return makeTune(
    {
      ...{
        title: name,
        key: 'G',
        meter: '2/2',
        goalTempo,
        form,
        tuning: [67, 50, 55, 59, 62],
        capo: 0,
        spike: 0,
      },
      parts: emptyParts(form, counts, '2/2'),
      pickup: null,
    },
    () => `${name}-${next++}`,
    { at: 0, offsetMin: 0 },
  );
}

export const layerOf = (tune: Tune) => tune.layers[0]!.id;
export const figure = (tune: Tune, place: number) => figurePassages(tune, layerOf(tune))[place]!;
export const seam = (tune: Tune, place: number) => seamPassages(tune, layerOf(tune))[place]!;
export const whole = (tune: Tune): Passage => ({ kind: 'tune', tuneId: tune.id, layerId: layerOf(tune) });
export const part = (tune: Tune, name: string): Passage => ({
  ...{ kind: 'part', tuneId: tune.id, layerId: layerOf(tune), part: name },
});

export function drillOn(id: string, passage: Passage, moment: Moment): Drill {
  return { id, sittingId: `s-${id}`, passage, climb: 'steady', ...moment };
}

export function passAt(id: string, drillId: string, moment: Moment, fields: Partial<Pass> = {}): Pass {
  const plain = { tempo: 60, outcome: 'clean', fromMemory: true, missAt: null } as const;
  return { kind: 'pass', id, drillId, ...moment, ...plain, ...fields };
}

export function correctionOf(
  id: string,
  pass: Pass,
  outcome: Correction['outcome'],
  seconds = 1,
): Correction {
  const { drillId, offsetMin } = pass;
  return {
    kind: 'correction',
    id,
    drillId,
    passId: pass.id,
    outcome,
    at: pass.at + 1000 * seconds,
    offsetMin,
  };
}

export function sittingOf(id: string, drills: readonly Drill[], log: readonly LogEntry[]): SealedSitting {
  const { at, offsetMin } = drills[0] ?? evening(0);
  return {
    ...{ id, at, offsetMin, minutes: 20, tuning: null, hands: 'fresh', note: '', origin: 'own' },
    ...{ endedAt: at + 1_200_000, drills, log },
  };
}

/** One sitting of one drill: passes ten seconds apart. */
export function sittingOn(
  id: string,
  passage: Passage,
  day: number,
  passes: readonly Partial<Pass>[],
): SealedSitting {
  const drill = drillOn(`d-${id}`, passage, evening(day));
  const log = passes.map((fields, index) =>
    passAt(`p-${id}-${String(index).padStart(3, '0')}`, drill.id, evening(day, 10 * index + 10), fields),
  );
  return sittingOf(id, [drill], log);
}
