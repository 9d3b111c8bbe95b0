import { playableTempo } from '../practice/estimate';
import { passageShape, type PassageShape } from '../practice/passage-shape';
import type { Outcome, Pass, SealedSitting } from '../practice/records';
import { countedPasses } from '../practice/settled-log';
import { soundMoment } from '../time/moment';
import { practiceDay, type PracticeDay } from '../time/practice-day';
import { passageKey, type Passage, type PassageKey, type PassageKind } from '../tune/passage';
import type { Tune } from '../tune/tune';

/** A pass that told something about a passage. */
export interface ToldPass {
  at: number;
  day: PracticeDay;
  tempo: number;
  /** What it was in this passage; `somewhere`: a miss in what was played, shared among the links of it. */
  outcome: Outcome | 'somewhere';
  /** What was played: the passage itself, or something that it is part of. */
  played: Passage;
}

/** At least so many passes are told, when there are so many. */
const ENOUGH = 24;

/**
 * The newest passes that told something about a passage, alone or as part of something longer, the oldest first: whole
 * practice days, until there are enough of them. What passes say is what the fold takes from them (fold-pass.ts).
 */
export function toldPasses(
  tune: Tune,
  sittings: readonly Pick<SealedSitting, 'at' | 'offsetMin' | 'drills' | 'log'>[],
  passage: Passage,
  dayStartsAtHour: number,
): ToldPass[] {
  const key = passageKey(passage);
  const shapes = new Map<PassageKey, PassageShape | null>();
  const shapeOf = (played: Passage): PassageShape | null => {
    const playedKey = passageKey(played);
    const known = shapes.get(playedKey);
    if (known !== undefined) return known;
    const shape = passageShape(tune, played);
    const touching = shape && touches(shape, key) ? shape : null;
    shapes.set(playedKey, touching);
    return touching;
  };
  const told: ToldPass[] = [];
  for (const sitting of sittings.toSorted((a, b) => b.at - a.at)) {
    const last = told.at(-1);
    if (told.length >= ENOUGH && last && practiceDay(sitting, dayStartsAtHour) !== last.day) break;
    const drills = new Map(
      sitting.drills.flatMap((drill) => {
        const shape = drill.passage.tuneId === tune.id ? shapeOf(drill.passage) : null;
        return shape ? [[drill.id, shape]] : [];
      }),
    );
    if (drills.size === 0) continue;
    for (const pass of countedPasses(sitting.log).reverse()) {
      const shape = drills.get(pass.drillId);
      const outcome = shape && outcomeHere(shape, key, pass);
      const tempo = playableTempo(pass.tempo);
      if (!shape || !outcome || tempo === null) continue;
      const { at } = pass;
      told.push({
        at,
        day: practiceDay(soundMoment(pass), dayStartsAtHour),
        tempo,
        outcome,
        played: shape.passage,
      });
    }
  }
  // a clock set wrong may have put a day between two others
  return told.reverse().sort((a, b) => a.day - b.day);
}

function touches({ key: own, linkKeys, parts }: PassageShape, key: PassageKey): boolean {
  return own === key || linkKeys.includes(key) || parts.some((part) => passageKey(part) === key);
}

/** What a pass of something says of a passage in it; `null`: nothing. */
function outcomeHere(shape: PassageShape, key: PassageKey, pass: Pass): ToldPass['outcome'] | null {
  if (shape.key === key || pass.outcome === 'clean') return pass.outcome;
  if (pass.missAt === null) return 'somewhere';
  const at = shape.atMeasure[pass.missAt];
  const heldBefore = shape.heldBefore[pass.missAt];
  if (at === undefined || heldBefore === undefined) return 'somewhere';
  const link = shape.linkKeys.indexOf(key);
  if (link >= 0) {
    if (at[0] === link) return pass.outcome;
    if (at.includes(link)) return 'somewhere';
    return link < heldBefore ? 'clean' : null;
  }
  const part = shape.parts.findIndex((one) => passageKey(one) === key);
  const missed = shape.partAt[pass.missAt] ?? -1;
  if (part === missed) return pass.outcome;
  return part < missed ? 'clean' : null;
}

/** The passes of each practice day, the oldest day first. */
export function byDay(told: readonly ToldPass[]): { day: PracticeDay; passes: ToldPass[] }[] {
  const days: { day: PracticeDay; passes: ToldPass[] }[] = [];
  for (const pass of told) {
    const last = days.at(-1);
    if (last?.day === pass.day) last.passes.push(pass);
    else days.push({ day: pass.day, passes: [pass] });
  }
  return days;
}

/** How many of the passes were of each longer kind of passage. */
export function longerPasses(told: readonly ToldPass[], key: PassageKey): Map<PassageKind, number> {
  const counts = new Map<PassageKind, number>();
  for (const { played } of told) {
    if (passageKey(played) === key) continue;
    counts.set(played.kind, (counts.get(played.kind) ?? 0) + 1);
  }
  return counts;
}
