/**
 * Writes sample-data/demo-book.json: `npx tsx sample-data/make-demo.ts`. The same book each time (README.md).
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { v7 } from 'uuid';
import { writeBackup } from '../src/lib/core/book/backup';
import { makePlan } from '../src/lib/core/plan/make-plan';
import type { PlanItem } from '../src/lib/core/plan/plan';
import type {
  Correction,
  Drill,
  Hands,
  LogEntry,
  Pass,
  SealedSitting,
} from '../src/lib/core/practice/records';
import { Standings } from '../src/lib/core/practice/standings';
import { DAY_MS, HOUR_MS, MINUTE_MS, type Moment } from '../src/lib/core/time/moment';
import { practiceDay } from '../src/lib/core/time/practice-day';
import { changeMeasure } from '../src/lib/core/tune/change-measure';
import { addLayer, figuresNewIn } from '../src/lib/core/tune/layers';
import { makeTune } from '../src/lib/core/tune/make-tune';
import { passageKey, type PassageKey } from '../src/lib/core/tune/passage';
import { figurePassages, firstLayer } from '../src/lib/core/tune/places';
import type { Id, Tune } from '../src/lib/core/tune/tune';
import { tuningName, type Tuning } from '../src/lib/core/tune/tuning';
import { MadeUpLearner, seededDraw } from './made-up-learner';
import { readDemoLayer, readDemoTune, type DemoLayer } from './read-demo-tune';

const SEED = 20261125;
/** Local midnight of the first and the last day that may have a sitting, as if it were UTC. */
const FIRST_DAY = Date.UTC(2026, 8, 15);
const LAST_DAY = Date.UTC(2026, 10, 24);
/** Central European clocks went back at 01:00 UTC on the last Sunday of October (Directive 2000/84/EC). */
const CLOCKS_BACK = Date.UTC(2026, 9, 25, 1);

/**
 * When a tune is played, in days since FIRST_DAY; how often the banjo stands in its tuning, against the others; and
 * the share of the goal that was there before the book began. A second layer is begun `layerFrom` days after FIRST_DAY,
 * with a head start of its own.
 */
interface Story {
  file: string;
  from: number;
  until: number;
  often: number;
  headStart: number;
  layerFrom?: number;
}
const STORY: readonly Story[] = [
  { file: 'cluck-old-hen', from: 0, until: 35, often: 8, headStart: 0.52 },
  { file: 'old-joe-clark', from: 13, until: 99, often: 7, headStart: 0.5, layerFrom: 54 },
  { file: 'angeline-the-baker', from: 27, until: 99, often: 7, headStart: 0.42 },
  { file: 'cold-frosty-morning', from: 40, until: 99, often: 2, headStart: 0.22 },
  { file: 'crooked-hen-on-the-mill-stair', from: 50, until: 99, often: 2, headStart: 0.12 },
  { file: 'soldiers-joy', from: 67, until: 99, often: 0, headStart: 0 },
];

const LAYER_HEAD_START = 0.05;
/** Of the tempo that the plan begins at: a technique that the hands do not know yet is begun slower, by hand. */
const LAYER_START = 0.6;
const EAGER_DAYS = 4;

const NOTES = [
  'Fifth string buzzed until I moved the spike.',
  'Slow and even today.',
  'The join into B is better when I do not look.',
  'Neighbours asleep, played with a mute on the bridge.',
  'New strings, kept going out of tune.',
  'Played the whole thing for my sister. One stumble.',
];

const draw = seededDraw(SEED);
/** Of its own, so that a tune with a layer is played like one without until the layer is begun. */
const layerDraw = seededDraw(SEED + 1);

function idAt(at: number, from = draw): Id {
  return v7({ msecs: at, random: Uint8Array.from({ length: 16 }, () => Math.floor(from() * 256)) });
}

function momentAt(localMs: number): Moment {
  const summer = localMs - 2 * HOUR_MS;
  return summer < CLOCKS_BACK ? { at: summer, offsetMin: 120 } : { at: localMs - HOUR_MS, offsetMin: 60 };
}

function pick<T>(from: readonly T[]): T | undefined {
  return from[Math.floor(draw() * from.length)];
}

function readTunes(): Tune[] {
  return STORY.map(({ file, from, layerFrom }) => {
    const text = readFileSync(new URL(`tunes/${file}.txt`, import.meta.url), 'utf8');
    const added = momentAt(FIRST_DAY + from * DAY_MS + 17 * HOUR_MS + Math.floor(draw() * HOUR_MS));
    const tune = makeTune(readDemoTune(text).draft, () => idAt(added.at), added, 'demo');
    if (layerFrom === undefined) return tune;
    const layer = readFileSync(new URL(`layers/${file}.txt`, import.meta.url), 'utf8');
    const layered = momentAt(FIRST_DAY + layerFrom * DAY_MS + 17 * HOUR_MS);
    return withLayer(tune, readDemoLayer(layer, tune.meter), layered);
  });
}

function withLayer(plain: Tune, { name, changes }: DemoLayer, added: Moment): Tune {
  const nextId = (): Id => idAt(added.at, layerDraw);
  const layered = addLayer(plain, name, nextId, added);
  const layerId = layered.layers.at(-1)?.id ?? '';
  return changes.reduce((tune, { part, index, content }) => {
    const measureId = tune.parts.find((one) => one.name === part)?.measures[index]?.id ?? '';
    return changeMeasure(tune, { layerId, measureId, content, scope: 'shared' }, nextId, added);
  }, layered);
}

/** About five sittings a week, most in the evening, now and then before work; always one on the last day. */
function sittingStarts(): Moment[] {
  const starts: Moment[] = [];
  for (let day = FIRST_DAY; day <= LAST_DAY; day += DAY_MS) {
    const plays = draw() < 0.71 || day === FIRST_DAY || day === LAST_DAY;
    const early = draw() < 0.15;
    const minute = Math.floor(draw() * 100);
    if (plays)
      starts.push(momentAt(day + (early ? 7 * HOUR_MS : 18 * HOUR_MS + 20 * MINUTE_MS) + minute * MINUTE_MS));
  }
  return starts;
}

function storyOf(tunes: readonly Tune[], now: Moment): { tune: Tune; often: number }[] {
  const day = (now.at - FIRST_DAY) / DAY_MS;
  return tunes.flatMap((tune, index) => {
    const story = STORY[index];
    if (!story || day < story.from || day >= story.until) return [];
    const layers = tune.layers.slice(0, day < (story.layerFrom ?? story.from) ? 1 : undefined);
    return [{ tune: { ...tune, layers }, often: story.often }];
  });
}

/** The tuning that the banjo happens to stand in. */
function tuningInHand(story: readonly { tune: Tune; often: number }[]): Tuning | null {
  let left = draw() * story.reduce((sum, { often }) => sum + often, 0);
  for (const { tune, often } of story) {
    left -= often;
    if (left < 0) return tune.tuning;
  }
  return null;
}

/** One drill as it goes: up after each clean pass until the first miss, then after two; down after a miss, back to the start after two. */
function playDrill(
  item: PlanItem,
  tune: Tune,
  drill: Drill,
  learner: MadeUpLearner,
): { log: LogEntry[]; end: number } {
  const log: LogEntry[] = [];
  const day = practiceDay(drill);
  const isLong = item.kind === 'tune' || item.kind === 'part';
  const count = isLong ? 2 + Math.floor(draw() * 2) : 8 + Math.floor(draw() * 5);
  const pause = (item.minutes * MINUTE_MS) / (count + 1);
  const fromMemory = item.reasonKind === 'new figure' ? 0.35 : 0.85;
  const start = Math.round(item.startTempo * (isNewInLayer(item, tune) ? LAYER_START : 1));
  let [tempo, clean, missed, wanted] = [start, 0, 0, 1];
  let at = drill.at;
  for (let pass = 0; pass < count; pass++) {
    at += Math.round(pause * (0.85 + 0.3 * draw()));
    const { outcome, missAt } = learner.play(tune, item.passage, tempo, day);
    const known = missAt !== null && isLong && draw() < 0.8;
    const record: Pass = {
      ...{ kind: 'pass', id: idAt(at), drillId: drill.id, at, offsetMin: drill.offsetMin, tempo, outcome },
      ...{ fromMemory: draw() < fromMemory, missAt: known ? missAt : null },
    };
    log.push(record);
    if (draw() < 0.006) log.push(correctionOf(record));
    [clean, missed] = outcome === 'clean' ? [clean + 1, 0] : [0, missed + 1];
    if (outcome !== 'clean') wanted = isLong ? 1 : 2;
    if (clean === wanted) [tempo, clean] = [Math.min(item.towardTempo, Math.round(tempo * 1.05)), 0];
    else if (missed === 1) tempo = Math.max(20, Math.round(tempo * 0.96));
    else if (missed === 2) [tempo, missed] = [start, 0];
  }
  return { log, end: at };
}

function isNewInLayer({ passage, reasonKind }: PlanItem, tune: Tune): boolean {
  if (passage.kind !== 'figure' || (reasonKind !== 'new figure' && reasonKind !== 'next layer')) return false;
  return tune.layers.slice(1).some(({ id }) => figuresNewIn(tune, id).includes(passage.figureId));
}

function correctionOf({ id, drillId, at, offsetMin, outcome }: Pass): Correction {
  const later = at + 4000;
  const changed = outcome === 'clean' ? 'stumbled' : 'clean';
  return { kind: 'correction', id: idAt(later), drillId, passId: id, at: later, offsetMin, outcome: changed };
}

/** A tune just added is begun by its learner's own wish, whatever the plan says. */
function eagerFor(story: readonly { tune: Tune }[], now: Moment): PassageKey[] {
  return story
    .filter(
      ({ tune }) => now.at - tune.added.at < EAGER_DAYS * DAY_MS && tune.added.at > FIRST_DAY + 2 * DAY_MS,
    )
    .flatMap(({ tune }) => figurePassages(tune, firstLayer(tune).id).slice(0, 2))
    .map(passageKey);
}

function playSitting(
  now: Moment,
  story: readonly { tune: Tune; often: number }[],
  standings: Standings,
  learner: MadeUpLearner,
): SealedSitting | null {
  const tunes = story.map(({ tune }) => tune);
  const inHand = tuningInHand(story);
  const minutes = [15, 20, 20, 20, 25][Math.floor(draw() * 5)] ?? 20;
  const hands: Hands = draw() < 0.8 ? 'fresh' : draw() < 0.7 ? 'stiff' : 'tired';
  standings.moveTo(now);
  const pinned = eagerFor(story, now);
  const plan = makePlan({ tunes, standings, request: { now, minutes, tuning: inHand, hands, pinned } });
  if (plan.items.length === 0) return null;
  const id = idAt(now.at);
  const drills: Drill[] = [];
  const log: LogEntry[] = [];
  let at = now.at + MINUTE_MS;
  let tuning = inHand && tuningName(inHand);
  for (const item of plan.items) {
    const tune = tunes.find((candidate) => candidate.id === item.tuneId);
    if (!tune) continue;
    if (item.tuning !== tuning) at += 2 * MINUTE_MS;
    tuning = item.tuning;
    const drill: Drill = {
      ...{ id: idAt(at), sittingId: id, passage: item.passage, climb: 'steady' },
      ...{ at, offsetMin: now.offsetMin },
    };
    const played = playDrill(item, tune, drill, learner);
    drills.push(drill);
    log.push(...played.log);
    at = played.end + 10_000;
  }
  const note = draw() < 0.12 ? (pick(NOTES) ?? '') : '';
  return { id, ...now, minutes, tuning: inHand, hands, note, origin: 'demo', endedAt: at, drills, log };
}

/** The text of the demo book. */
export function makeDemoBook(): string {
  const tunes = readTunes();
  const headStarts = new Map(tunes.map(({ id }, index) => [id, STORY[index]?.headStart ?? 0]));
  const layered = tunes.flatMap((tune) => tune.layers.slice(1).flatMap(({ id }) => figuresNewIn(tune, id)));
  const headStart = ({ id }: Tune, key: PassageKey): number =>
    layered.some((figureId) => key.includes(figureId)) ? LAYER_HEAD_START : (headStarts.get(id) ?? 0);
  const starts = sittingStarts();
  const learner = new MadeUpLearner(draw, headStart);
  const standings = new Standings(tunes, starts[0] ?? momentAt(FIRST_DAY));
  const sittings: SealedSitting[] = [];
  for (const start of starts) {
    const sitting = playSitting(start, storyOf(tunes, start), standings, learner);
    if (!sitting) continue;
    if (!standings.applyPasses(sitting)) throw new Error('A sitting came before one already folded');
    sittings.push(sitting);
  }
  const exportedAt = momentAt(LAST_DAY + 22 * HOUR_MS);
  return writeBackup({ tunes, sittings, settings: [] }, exportedAt);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  writeFileSync(new URL('demo-book.json', import.meta.url), makeDemoBook());
}
