import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { packStates, unpackStates } from '../../../src/lib/core/practice/packed-states';
import { foldStandings, Standings } from '../../../src/lib/core/practice/standings';
import { OUTCOMES, type LogEntry, type SealedSitting } from '../../../src/lib/core/practice/records';
import { explainedSentences, explainPassage } from '../../../src/lib/core/plan/explain';
import type { Passage } from '../../../src/lib/core/tune/passage';
import type { Tune } from '../../../src/lib/core/tune/tune';
import {
  correctionOf,
  drillOn,
  evening,
  figure,
  layerOf,
  part,
  passAt,
  seam,
  sittingOf,
  sittingOn,
  testTune,
  whole,
} from './book';

const tune = testTune('Larkspur');
const short = testTune('One', 'A', [1]);
const long = testTune('Long', 'A', [24]);
const aimless: Tune = { ...testTune('Aimless'), goalTempo: NaN };
const endless: Tune = { ...testTune('Endless', 'A', [400]), goalTempo: 0 };
const deleted: Tune = { ...testTune('Gone'), deletedAt: 1 };
const damaged: Tune = { ...testTune('Torn'), figures: [] };
const tunes = [tune, short, long, aimless, deleted, damaged];
const layerId = layerOf(tune);

const phrase: Passage = {
  ...{ kind: 'phrase', tuneId: tune.id, layerId },
  ...{ fromMeasureId: tune.parts[0]!.measures[1]!.id, toMeasureId: tune.parts[0]!.measures[3]!.id },
};
const sound: Passage[] = [
  figure(tune, 0),
  figure(tune, 5),
  seam(tune, 2),
  phrase,
  part(tune, 'A'),
  whole(tune),
];
const odd: Passage[] = [
  ...[whole(short), whole(long), whole(aimless), figure(deleted, 0), whole(damaged)],
  { kind: 'figure', tuneId: tune.id, figureId: 'gone' },
  { kind: 'seam', tuneId: tune.id, fromFigureId: 'gone', toFigureId: 'gone too' },
  { kind: 'part', tuneId: tune.id, layerId, part: 'Q' },
  { kind: 'tune', tuneId: 'no such tune', layerId },
];

const anyTempo = fc.oneof(
  { weight: 6, arbitrary: fc.integer({ min: 20, max: 160 }) },
  { weight: 1, arbitrary: fc.constantFrom(NaN, Infinity, -10, 0, 1e12) },
);
const anyInstant = fc.oneof(
  { weight: 8, arbitrary: fc.integer({ min: 0, max: 40 * 86_400 }).map((second) => evening(0, second).at) },
  { weight: 1, arbitrary: fc.constantFrom(0, -1e15, NaN, Infinity, Date.UTC(2094, 0, 1)) },
);
const anyPass = fc.record({
  at: anyInstant,
  offsetMin: fc.constantFrom(-300, 0, 60, 330, NaN),
  tempo: anyTempo,
  outcome: fc.constantFrom(...OUTCOMES),
  fromMemory: fc.boolean(),
  missAt: fc.constantFrom(null, 0, 1, 3, 7, 999, -1),
  corrected: fc.option(fc.constantFrom('unmarked' as const, ...OUTCOMES), { freq: 8 }),
});
const anyDrill = fc.record({
  passage: fc.constantFrom(...sound, ...sound, ...odd),
  passes: fc.array(anyPass, { maxLength: 8 }),
});

const anyBook = fc.array(anyDrill, { maxLength: 7 }).map((drills) =>
  drills.map(({ passage, passes }, number): SealedSitting => {
    const drill = drillOn(`d${number}`, passage, evening(number));
    const log = passes.flatMap(({ corrected, ...fields }, place): LogEntry[] => {
      const pass = passAt(`p${number}-${place}`, drill.id, evening(number), fields);
      return corrected === null ? [pass] : [pass, correctionOf(`c${number}-${place}`, pass, corrected)];
    });
    return sittingOf(`s${number}`, [drill], log);
  }),
);
const now = evening(41);

/** The same, one evening after the other, as a log mostly is. */
const orderlyBook = fc
  .array(fc.tuple(anyDrill, fc.array(fc.integer({ min: 1, max: 3000 }), { minLength: 8, maxLength: 8 })), {
    maxLength: 7,
  })
  .map((drills) =>
    drills.map(([{ passage, passes }, seconds], number): SealedSitting => {
      const drill = drillOn(`d${number}`, passage, evening(number));
      const log = passes.flatMap(({ corrected, at: _at, ...fields }, place): LogEntry[] => {
        const pass = passAt(`p${number}-${place}`, drill.id, evening(number, seconds[place]), {
          ...fields,
          offsetMin: 0,
        });
        return corrected === null ? [pass] : [pass, correctionOf(`c${number}-${place}`, pass, corrected)];
      });
      return sittingOf(`s${number}`, [drill], log);
    }),
  );

const sortedMap = (standings: Standings) =>
  new Map([...standings.toMap()].sort(([a], [b]) => (a < b ? -1 : 1)));

/** A fold that was given its log sitting by sitting, or `null` when that asked for all at once. */
function onwards(standings: Standings, sittings: readonly SealedSitting[]): Standings | null {
  return sittings.every((sitting) => standings.takeNext(sitting) !== null) ? standings : null;
}

it('a tune of 400 measures and one of a single measure are taken like any other', () => {
  const sittings = [endless, short].map((one) =>
    sittingOn(one.id, whole(one), 0, [{ tempo: 70 }, { outcome: 'stumbled' }]),
  );
  const standings = foldStandings({ tunes: [endless, short], sittings, now });
  expect(standings.tuneSettled(endless, layerOf(endless))?.slowest).toHaveLength(400);
  expect(standings.tuneSettled(short, layerOf(short))?.slowest).toHaveLength(1);
  const all = [...standings.toMap().values()];
  expect(all).toHaveLength(400 + 399 + 2 + 1 + 2);
  // the goal of the long one is no tempo
  for (const { settled, comfortable, recall } of all) {
    expect([settled?.tempo, settled?.low, settled?.high, comfortable, recall].every(Number.isFinite)).toBe(
      true,
    );
  }
});

describe('any log', () => {
  it('gives the same standings in any order of arrival, doubled or not', () => {
    const arrival = anyBook.chain((book) =>
      fc.tuple(
        fc.constant(book),
        fc.shuffledSubarray([...book, ...book], { minLength: book.length * 2 }),
        fc.infiniteStream(fc.nat()),
      ),
    );
    fc.assert(
      fc.property(arrival, ([book, again, keys]) => {
        const shuffled = again.map((sitting) => {
          const keyed = sitting.log.map((entry) => ({ entry, key: keys.next().value ?? 0 }));
          return { ...sitting, log: keyed.sort((a, b) => a.key - b.key).map(({ entry }) => entry) };
        });
        const first = foldStandings({ tunes, sittings: book, now });
        const second = foldStandings({ tunes: [...tunes].reverse(), sittings: shuffled, now });
        const sorted = (map: Map<string, unknown>) => [...map].sort(([a], [b]) => (a < b ? -1 : 1));
        expect(sorted(second.toMap())).toEqual(sorted(first.toMap()));
      }),
      { numRuns: 60 },
    );
  });

  it('gives the same standings when sittings come in halves that share entries', () => {
    fc.assert(
      fc.property(anyBook, fc.infiniteStream(fc.nat(9)), (book, cuts) => {
        const halves = book.flatMap((sitting) => {
          const [from, to] = [cuts.next().value ?? 0, cuts.next().value ?? 0];
          return [
            { ...sitting, log: sitting.log.slice(Math.min(from, to)) },
            { ...sitting, log: sitting.log.slice(0, Math.max(from, to)) },
          ];
        });
        const one = foldStandings({ tunes, sittings: book, now });
        expect(sortedMap(foldStandings({ tunes, sittings: halves, now }))).toEqual(sortedMap(one));
      }),
      { numRuns: 60 },
    );
  });

  it('gives the same standings sitting by sitting as all at once, wherever that is taken', () => {
    let taken = 0;
    fc.assert(
      fc.property(fc.oneof(orderlyBook, anyBook), (book) => {
        const piecewise = onwards(new Standings(tunes, now), book);
        if (!piecewise || book.some(({ log }) => log.some(({ at }) => !(at <= now.at)))) return;
        taken += 1;
        expect(sortedMap(piecewise)).toEqual(sortedMap(foldStandings({ tunes, sittings: book, now })));
      }),
      { numRuns: 100 },
    );
    expect(taken).toBeGreaterThan(30);
  });

  it('gives the same standings from a fold that was kept and the rest of the log as all at once', () => {
    fc.assert(
      fc.property(orderlyBook, fc.nat(7), (book, cut) => {
        const earlier = onwards(new Standings(tunes, now), book.slice(0, cut))!;
        const { states, ...head } = earlier.snapshot()!;
        const kept = unpackStates(structuredClone(packStates(states)));
        const resumed = Standings.fromSnapshot({ ...head, states: kept, print: '' }, tunes, now);
        const whole = foldStandings({ tunes, sittings: book, now });
        expect(sortedMap(onwards(resumed, book.slice(cut))!)).toEqual(sortedMap(whole));
        for (const key of whole.toMap().keys()) {
          expect(resumed.historyOf(key)).toEqual(whole.historyOf(key));
          expect(resumed.recentOf(key)).toEqual(whole.recentOf(key));
        }
      }),
      { numRuns: 60 },
    );
  });

  it('keeps no fold that a clock running ahead has made depend on its moment', () => {
    const ahead = sittingOn('ahead', whole(tune), 50, [{ tempo: 60 }]);
    expect(onwards(new Standings(tunes, now), [ahead])?.snapshot()).toBeNull();
    expect(onwards(new Standings(tunes, evening(60)), [ahead])?.snapshot()?.states.length).toBe(20);
  });

  it('is not gone on from when the lists of a kept fold do not fit together', () => {
    const folded = foldStandings({ tunes, sittings: [sittingOn('a', whole(tune), 0, [{ tempo: 60 }])], now });
    const packed = packStates(folded.snapshot()!.states);
    expect(unpackStates(packed)).toHaveLength(20);
    expect(() => unpackStates({ ...packed, cells: packed.cells.slice(1) })).toThrow(RangeError);
    expect(() => unpackStates({ ...packed, keys: packed.keys.slice(1) })).toThrow(RangeError);
  });

  it('gives numbers that can be played and counted, for every passage, never NaN', () => {
    fc.assert(
      fc.property(anyBook, (book) => {
        const standings = foldStandings({ tunes, sittings: book, now });
        for (const passage of [...sound, ...odd]) {
          const { settled, comfortable, recall, passes, days, ofLast, cleanOfLast20, lastPlayed, key } =
            standings.of(passage);
          expect(Number.isInteger(comfortable) && comfortable >= 20 && comfortable <= 300).toBe(true);
          expect(recall >= 0 && recall <= 1).toBe(true);
          expect(cleanOfLast20).toBeLessThanOrEqual(ofLast);
          expect(ofLast).toBeLessThanOrEqual(Math.min(20, passes));
          expect(days).toBeLessThanOrEqual(passes);
          expect(settled === null).toBe(passes === 0);
          if (settled)
            expect(0 < settled.low && settled.low <= settled.tempo && settled.tempo <= settled.high).toBe(
              true,
            );
          if (lastPlayed) expect(lastPlayed.at).toBeLessThanOrEqual(now.at);
          for (const record of standings.historyOf(key)) {
            expect(Object.values(record).every(Number.isFinite)).toBe(true);
            expect(record.day >= 10_957 && record.day <= standings.today).toBe(true);
          }
        }
        for (const { id } of [deleted, damaged]) {
          expect([...standings.toMap().values()].filter(({ passage }) => passage.tuneId === id)).toEqual([]);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('never lowers the predicted chance of a miss when the tempo is raised', () => {
    fc.assert(
      fc.property(anyBook, fc.constantFrom(...sound), (book, passage) => {
        const standings = foldStandings({ tunes, sittings: book, now });
        let before = 1;
        for (let tempo = 20; tempo <= 300; tempo += 7) {
          const chance = standings.chanceOfClean(passage, tempo);
          expect(chance).toBeLessThanOrEqual(before);
          expect(chance).toBeGreaterThanOrEqual(0);
          before = chance;
        }
      }),
      { numRuns: 40 },
    );
  });

  it('can be taken in sitting by sitting wherever it comes in order', () => {
    fc.assert(
      fc.property(anyBook, fc.nat(6), (book, at) => {
        const standings = foldStandings({ tunes, sittings: book.slice(0, at), now });
        for (const sitting of book.slice(at)) if (!standings.applyPasses(sitting)) return;
        // passes from the future are put after all others by a fold, and cannot be when they are taken in before them
        if (book.some(({ log }) => log.some((entry) => !(entry.at <= now.at)))) return;
        const all = foldStandings({ tunes, sittings: book, now });
        expect(new Map([...standings.toMap()].sort())).toEqual(new Map([...all.toMap()].sort()));
      }),
      { numRuns: 60 },
    );
  });

  it('is explained in sentences with whole figures', () => {
    fc.assert(
      fc.property(anyBook, fc.constantFrom(...sound), (book, passage) => {
        const standings = foldStandings({ tunes, sittings: book, now });
        const told = explainPassage({ tunes: [tune], sittings: book, standings, passage });
        const sentences = explainedSentences(told);
        expect(sentences.length).toBeGreaterThan(1);
        for (const sentence of sentences) expect(sentence).toMatch(/^[A-Z0-9][^{}]*[.]$/);
        expect(sentences.join(' ')).not.toMatch(/NaN|undefined|null|\d\.\d/);
      }),
      { numRuns: 40 },
    );
  });
});
