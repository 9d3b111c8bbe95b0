import type { Drill, LogEntry, Outcome, Pass, SealedSitting } from '../../src/lib/core/practice/records';
import { DAY_MS, type Moment } from '../../src/lib/core/time/moment';
import { emptyParts, makeTune } from '../../src/lib/core/tune/make-tune';
import type { Passage } from '../../src/lib/core/tune/passage';
import { figurePassages, seamPassages } from '../../src/lib/core/tune/places';
import type { Tune } from '../../src/lib/core/tune/tune';
import { seeded } from './random';

/** DESIGN section 7: twenty years of practice. */
export const BIG = { tunes: 500, sittings: 7200, passes: 1_000_000, years: 20 };

export const FIRST_DAY = Date.UTC(2006, 10, 25, 18);
const OFFSET_MIN = 60;
/** Between two sittings of a day: longer than any of them. */
const APART_MS = 3 * 3_600_000;
const TUNINGS = [
  [67, 50, 55, 59, 62],
  [67, 50, 55, 60, 62],
  [69, 50, 57, 62, 64],
] as const;

export interface BigBook {
  tunes: Tune[];
  sittings: SealedSitting[];
  /** The evening after the last sitting. */
  now: Moment;
}

type Random = () => number;

/** A UUIDv7's look: rising with time, then with the count. */
function idMaker(): (at: number) => string {
  let count = 0;
  return (at) => {
    const time = at.toString(16).padStart(12, '0');
    const serial = (count++).toString(16).padStart(15, '0');
    return `${time.slice(0, 8)}-${time.slice(8)}-7${serial.slice(0, 3)}-8${serial.slice(3, 6)}-000${serial.slice(6)}`;
  };
}

/** Every passage of a tune that this learner plays, by what it is: 40 a tune. */
interface Repertoire {
  figures: Passage[];
  seams: Passage[];
  phrases: Passage[];
  parts: Passage[];
  whole: Passage;
  /** Where the tune's settled tempo begins and ends, as a share of the goal, and how fast it gets there. */
  from: number;
  to: number;
  daysToLearn: number;
  begunAt: number;
  tune: Tune;
}

function inventTune(at: number, place: number, random: Random, nextId: (at: number) => string): Repertoire {
  const tune = makeTune(
    {
      ...{ title: `Invented ${place + 1}`, key: 'G', meter: '2/2', form: 'AABB', capo: 0, spike: 0 },
      ...{ goalTempo: 90 + Math.floor(30 * random()), tuning: [...TUNINGS[place % 3]!] as Tune['tuning'] },
      ...{ parts: emptyParts('AABB', [8, 8], '2/2'), pickup: null },
    },
    () => nextId(at),
    { at, offsetMin: OFFSET_MIN },
  );
  const layerId = tune.layers[0]!.id;
  const ofLayer = { tuneId: tune.id, layerId };
  const phrases = tune.parts.flatMap(({ measures }) =>
    [0, 4].map((from): Passage => ({
      kind: 'phrase',
      ...ofLayer,
      ...{ fromMeasureId: measures[from]!.id, toMeasureId: measures[from + 3]!.id },
    })),
  );
  return {
    ...{ tune, phrases, begunAt: at },
    ...{ figures: figurePassages(tune, layerId), seams: seamPassages(tune, layerId) },
    parts: ['A', 'B'].map((part) => ({ kind: 'part', ...ofLayer, part })),
    whole: { kind: 'tune', ...ofLayer },
    ...{ from: 0.4 + 0.15 * random(), to: 0.85 + 0.25 * random(), daysToLearn: 30 + 60 * random() },
  };
}

/** What is drilled, with how many passes: most passes are of single measures and joins, most beats of whole tunes. */
function nextDrill(
  known: Repertoire,
  random: Random,
): { passage: Passage; passes: number; measures: number } {
  const draw = random();
  const any = (all: readonly Passage[]) => all[Math.floor(random() * all.length)]!;
  if (draw < 0.3) return { passage: any(known.figures), passes: 9 + Math.floor(8 * random()), measures: 1 };
  if (draw < 0.44) return { passage: any(known.seams), passes: 8 + Math.floor(8 * random()), measures: 1 };
  if (draw < 0.54) return { passage: any(known.phrases), passes: 6 + Math.floor(5 * random()), measures: 4 };
  if (draw < 0.7) return { passage: any(known.parts), passes: 4 + Math.floor(4 * random()), measures: 8 };
  return { passage: known.whole, passes: 2 + Math.floor(4 * random()), measures: 32 };
}

function outcomeAt(tempo: number, settled: number, random: Random): Outcome {
  const chance = 0.02 + 0.96 / (1 + Math.exp(8 * Math.log(tempo / settled) - 1.75));
  if (random() < chance) return 'clean';
  return random() < 0.75 ? 'stumbled' : 'broke down';
}

/**
 * A learner's whole life with the banjo, sitting by sitting, the same at every call: invented tunes of 16 measures, one begun
 * every two weeks, drills on the newest three and on any older one, a correction now and then. Gives the tunes at its end.
 */
export function* bigLife(
  { tunes, sittings, passes, years }: typeof BIG,
  firstDay: number,
): Generator<SealedSitting, Tune[]> {
  const random = seeded(7);
  const nextId = idMaker();
  const stepMs = (years * 365.25 * DAY_MS) / sittings;
  const known: Repertoire[] = [];
  let played = 0;
  let [dayBefore, ofDay] = [-1, 0];
  for (let number = 0; number < sittings; number++) {
    const day = Math.floor((number * stepMs) / DAY_MS);
    ofDay = day === dayBefore ? ofDay + 1 : 0;
    dayBefore = day;
    const at = firstDay + day * DAY_MS + ofDay * APART_MS + Math.floor(3_600_000 * random());
    while (known.length < Math.min(tunes, 1 + (number * tunes) / (0.97 * sittings))) {
      known.push(inventTune(at, known.length, random, nextId));
    }
    const until = Math.round(((number + 1) * passes) / sittings);
    yield playSitting(known, at, until - played, random, nextId);
    played = until;
  }
  return known.map(({ tune }) => tune);
}

export function bigBook(size = BIG): BigBook {
  const life = bigLife(size, FIRST_DAY);
  const sittings: SealedSitting[] = [];
  let step = life.next();
  for (; !step.done; step = life.next()) sittings.push(step.value);
  const last = sittings.at(-1)?.endedAt ?? FIRST_DAY;
  return { tunes: step.value, sittings, now: { at: last + DAY_MS, offsetMin: OFFSET_MIN } };
}

function playSitting(
  known: readonly Repertoire[],
  startAt: number,
  passes: number,
  random: Random,
  nextId: (at: number) => string,
): SealedSitting {
  const sitting = { id: nextId(startAt), at: startAt, offsetMin: OFFSET_MIN, minutes: 20, tuning: null };
  const drills: Drill[] = [];
  const log: LogEntry[] = [];
  let at = startAt;
  let left = passes;
  while (left > 0) {
    const newest = known.length - 1 - Math.floor(3 * random());
    const place = random() < 0.55 ? Math.max(0, newest) : Math.floor(random() * known.length);
    const chosen = known[place]!;
    const next = nextDrill(chosen, random);
    const drill: Drill = {
      ...{ id: nextId(at), sittingId: sitting.id, passage: next.passage },
      ...{ climb: 'steady', at, offsetMin: OFFSET_MIN },
    };
    drills.push(drill);
    const count = Math.min(left, next.passes);
    for (let pass = 0; pass < count; pass++) {
      at += Math.round(next.measures * 1500 + 3000);
      log.push(...playPass(chosen, drill, next.measures, at, random, nextId));
    }
    left -= count;
    at += 15_000;
  }
  return { ...sitting, hands: 'fresh', note: '', origin: 'own', endedAt: at, drills, log };
}

function playPass(
  known: Repertoire,
  drill: Drill,
  measures: number,
  at: number,
  random: Random,
  nextId: (at: number) => string,
): LogEntry[] {
  const { from, to, daysToLearn, begunAt, tune } = known;
  const days = (at - begunAt) / DAY_MS;
  const settled = tune.goalTempo * (to - (to - from) * Math.exp(-days / daysToLearn));
  const tempo = Math.round(settled * (0.75 + 0.35 * random()));
  const outcome = outcomeAt(tempo, settled, random);
  const missAt =
    outcome !== 'clean' && measures > 1 && random() < 0.5 ? Math.floor(measures * random()) : null;
  const pass: Pass = {
    ...{ kind: 'pass', id: nextId(at), drillId: drill.id, at, offsetMin: OFFSET_MIN, tempo, outcome },
    ...{ fromMemory: random() < 0.8, missAt },
  };
  if (random() > 0.003) return [pass];
  const { id: passId, drillId, offsetMin } = pass;
  const correction: LogEntry = {
    ...{ kind: 'correction', id: nextId(at + 900), drillId, passId, outcome: 'stumbled' },
    ...{ at: at + 900, offsetMin },
  };
  return [pass, correction];
}
