import { describe, expect, it } from 'vitest';
import { foldStandings, Standings } from '../../../src/lib/core/practice/standings';
import type { SealedSitting } from '../../../src/lib/core/practice/records';
import { passageKey } from '../../../src/lib/core/tune/passage';
import type { Tune } from '../../../src/lib/core/tune/tune';
import {
  correctionOf,
  evening,
  figure,
  layerOf,
  part,
  seam,
  sittingOf,
  sittingOn,
  testTune,
  whole,
} from './book';

const tune = testTune('Larkspur');
const other = testTune('Millrace');
const fold = (sittings: readonly SealedSitting[], day = 0, tunes: readonly Tune[] = [tune, other]) =>
  foldStandings({ tunes, sittings, now: evening(day, 3600) });
const tempos = (outcome: 'clean' | 'stumbled', ...all: number[]) => all.map((tempo) => ({ tempo, outcome }));
const tempoOf = (standings: Standings, passage: Parameters<Standings['of']>[0]) =>
  standings.of(passage).settled?.tempo ?? NaN;

describe('a passage that was never played', () => {
  it('has a comfortable tempo under half the goal, and nothing else to say', () => {
    const standing = fold([]).of(figure(tune, 0));
    expect(standing).toMatchObject({ settled: null, rust: 'fresh', recall: 0, passes: 0, lastPlayed: null });
    expect(standing.comfortable).toBeGreaterThanOrEqual(20);
    expect(standing.comfortable).toBeLessThan(50);
  });

  it('borrows from what was played: of a tune that goes well, more is expected', () => {
    const well = fold(
      [0, 1, 2].map((at) => sittingOn(`${at}`, figure(tune, at), 0, tempos('clean', 70, 80, 85, 90, 95))),
    );
    expect(well.of(figure(tune, 5)).comfortable).toBeGreaterThan(
      fold([]).of(figure(tune, 5)).comfortable * 1.2,
    );
    expect(well.of(figure(tune, 5)).settled).toBeNull();
  });
});

describe('passes of one figure', () => {
  const standings = fold(
    [
      sittingOn('1', figure(tune, 0), 0, [
        ...tempos('clean', 50, 54, 58),
        { tempo: 62, outcome: 'stumbled' },
      ]),
    ],
    1,
  );

  it('are counted, with the newest clean tempo and the moment', () => {
    expect(standings.of(figure(tune, 0))).toMatchObject({
      ...{ passes: 4, days: 1, cleanOfLast20: 3, ofLast: 4, lastCleanTempo: 58, isSettled: false },
      lastPlayed: evening(0, 40),
    });
  });

  it('say nothing directly of other figures, and leave a record of the day', () => {
    expect(standings.of(figure(tune, 1)).settled).toBeNull();
    const [day, ...more] = standings.historyOf(passageKey(figure(tune, 0)));
    expect(more).toEqual([]);
    expect(day).toMatchObject({ passes: 4, clean: 3, day: standings.today - 1 });
  });

  it('predict no more clean passes at a faster tempo', () => {
    const chances = [20, 40, 60, 80, 120].map((tempo) => standings.chanceOfClean(figure(tune, 0), tempo));
    expect(chances).toEqual([...chances].sort((a, b) => b - a));
    expect(chances[0]).toBeGreaterThan(0.9);
  });
});

describe('a pass of the whole tune', () => {
  it('says of every figure, seam and part in it that it held at that tempo', () => {
    const standings = fold([sittingOn('1', whole(tune), 0, tempos('clean', 70, 70, 70, 70))]);
    for (const passage of [figure(tune, 0), figure(tune, 7), seam(tune, 3), part(tune, 'B'), whole(tune)]) {
      expect(standings.of(passage)).toMatchObject({ passes: 4, cleanOfLast20: 4, lastCleanTempo: 70 });
      expect(tempoOf(standings, passage)).toBeGreaterThan(58);
    }
  });

  it('puts a miss where it went wrong: before it all held, of what comes after nothing is said', () => {
    const miss = { tempo: 60, outcome: 'broke down', missAt: 2 } as const;
    const standings = fold([sittingOn('1', part(tune, 'A'), 0, [miss, miss, miss])]);
    expect(standings.of(figure(tune, 0))).toMatchObject({ cleanOfLast20: 3, ofLast: 3 });
    expect(standings.of(figure(tune, 2))).toMatchObject({ cleanOfLast20: 0, ofLast: 3 });
    expect(standings.of(figure(tune, 3)).settled).toBeNull();
    expect(tempoOf(standings, figure(tune, 2))).toBeLessThan(tempoOf(standings, figure(tune, 0)) * 0.8);
  });

  it('shares a miss of unknown place by the odds: the weak link takes more of it than the strong one', () => {
    const strong = sittingOn('1', figure(tune, 0), 0, tempos('clean', 60, 80, 90, 100, 110, 120, 120));
    const weak = sittingOn('2', figure(tune, 1), 0, tempos('stumbled', 60, 55, 50));
    const before = fold([strong, weak]);
    // slow enough that even the weak link should have held: at a tempo where its miss was to be expected, a miss says nothing
    const missed = sittingOn('3', part(tune, 'A'), 0, tempos('stumbled', 42, 42));
    const late = { ...missed, log: missed.log.map((entry) => ({ ...entry, at: entry.at + 600_000 })) };
    const after = fold([strong, weak, late]);
    const loss = (place: number) =>
      1 - tempoOf(after, figure(tune, place)) / tempoOf(before, figure(tune, place));
    expect(loss(0)).toBeLessThan(0.02);
    expect(loss(1)).toBeGreaterThan(loss(0) * 2);
    expect(after.of(figure(tune, 0)).ofLast).toBe(before.of(figure(tune, 0)).ofLast);
  });
});

describe('from day to day', () => {
  const easy = tempos('clean', 60, 70, 75, 78, 80, 82, 84, 86, 86, 86);

  it('a passage is settled only after a night', () => {
    const first = sittingOn('1', figure(tune, 0), 0, easy);
    expect(fold([first]).of(figure(tune, 0)).isSettled).toBe(false);
    expect(fold([first, sittingOn('2', figure(tune, 0), 1, easy)], 1).of(figure(tune, 0)).isSettled).toBe(
      true,
    );
  });

  it('an estimate sinks and widens, and the words for it follow', () => {
    const sittings = [sittingOn('1', figure(tune, 0), 0, easy)];
    const [soon, late] = [fold(sittings, 0), fold(sittings, 90)].map((standings) =>
      standings.of(figure(tune, 0)),
    );
    expect([soon!.rust, late!.rust]).toEqual(['fresh', 'likely faded']);
    expect(late!.recall).toBeLessThan(soon!.recall);
    expect(late!.settled!.tempo).toBeLessThan(soon!.settled!.tempo);
    expect(late!.settled!.high / late!.settled!.low).toBeGreaterThan(
      soon!.settled!.high / soon!.settled!.low,
    );
    expect(late!.comfortable).toBeLessThanOrEqual(soon!.comfortable);
  });

  it('what is read on a later day agrees with what the next pass starts from', () => {
    const sittings = [sittingOn('1', figure(tune, 0), 0, easy)];
    for (const day of [1, 7, 30]) {
      const read = fold(sittings, day).of(figure(tune, 0)).settled!;
      // a clean pass far below says nothing: it only turns the day
      const turned = fold([...sittings, sittingOn('2', figure(tune, 0), day, [{ tempo: 20 }])], day);
      const begun = turned.of(figure(tune, 0)).settled!;
      expect(Math.abs(Math.log(read.tempo / begun.tempo))).toBeLessThan(0.04);
      expect(Math.abs(Math.log(read.low / begun.low))).toBeLessThan(0.06);
      expect(Math.abs(Math.log(read.high / begun.high))).toBeLessThan(0.06);
    }
  });

  it('an evening that runs past midnight is one day, and a later hour can be set', () => {
    const sitting = sittingOn('1', figure(tune, 0), 0, [{}, {}]);
    const past = sitting.log.map((entry, index) => ({
      ...entry,
      at: evening(0, 5.9 * 3600 + 1800 * index).at,
    }));
    expect(fold([{ ...sitting, log: past }], 1).of(figure(tune, 0)).days).toBe(1);
    const byMidnight = foldStandings({
      ...{ tunes: [tune], sittings: [{ ...sitting, log: past }], now: evening(1), dayStartsAtHour: 0 },
    });
    expect(byMidnight.of(figure(tune, 0)).days).toBe(2);
  });
});

describe("a tune's own tempo", () => {
  it('is that of its slowest played figure, with what is not played yet counted', () => {
    const fast = sittingOn('1', figure(tune, 0), 0, tempos('clean', 60, 70, 80, 90));
    const slow = sittingOn('2', figure(tune, 1), 0, tempos('stumbled', 50, 45, 40));
    const standings = fold([fast, slow]);
    const settled = standings.tuneSettled(tune, layerOf(tune));
    expect(settled?.slowest.map(({ key }) => key)).toEqual(
      [figure(tune, 1), figure(tune, 0)].map(passageKey),
    );
    expect(settled?.settled.tempo).toBe(tempoOf(standings, figure(tune, 1)));
    expect(settled?.unplayed).toBe(6);
    expect(standings.tuneSettled(other, layerOf(other))).toBeNull();
  });

  it('takes in a seam once both of its figures are settled', () => {
    const easy = tempos('clean', 70, 80, 85, 90, 90, 90);
    const days = [0, 1].flatMap((day) =>
      [0, 1].map((at) => sittingOn(`${day}${at}`, figure(tune, at), day, easy)),
    );
    const standings = fold([...days, sittingOn('s', seam(tune, 0), 1, tempos('stumbled', 40))], 1);
    expect(standings.seamIsOpen(seam(tune, 0))).toBe(true);
    expect(standings.seamIsOpen(seam(tune, 1))).toBe(false);
    expect(standings.tuneSettled(tune, layerOf(tune))?.slowest[0]?.key).toBe(passageKey(seam(tune, 0)));
  });

  it('has a history of its slowest link by day', () => {
    const standings = fold(
      [
        sittingOn('1', figure(tune, 0), 0, tempos('stumbled', 50, 45, 40)),
        sittingOn('2', figure(tune, 1), 0, tempos('clean', 60, 70)),
        sittingOn('3', figure(tune, 0), 2, tempos('clean', 60, 70, 80, 90, 90, 90)),
      ],
      2,
    );
    const history = standings.tuneHistory(tune, layerOf(tune));
    expect(history.map(({ key }) => key)).toEqual([figure(tune, 0), figure(tune, 1)].map(passageKey));
    expect(history.map(({ day }) => day - standings.today)).toEqual([-2, 0]);
  });
});

describe('the open sitting', () => {
  const closed = sittingOn('1', figure(tune, 0), 0, tempos('clean', 60, 65, 70));
  const open = sittingOn('2', part(tune, 'A'), 1, [
    ...tempos('clean', 60, 62),
    { tempo: 64, outcome: 'stumbled', missAt: 1 },
  ]);
  const grown = (entries: number) => sittingOf('2', open.drills, open.log.slice(0, entries));

  it('taken in pass by pass gives what a fold of everything gives', () => {
    const standings = fold([closed], 1);
    for (const entries of [0, 1, 2, 3]) expect(standings.applyPasses(grown(entries))).toBe(true);
    expect(standings.toMap()).toEqual(fold([closed, open], 1).toMap());
  });

  it('is taken back and put right when a pass of it is corrected', () => {
    const standings = fold([closed], 1);
    standings.applyPasses(open);
    const pass = open.log[1]!;
    if (pass.kind !== 'pass') throw new Error('a pass was expected');
    const corrected = { ...open, log: [...open.log, correctionOf('c', pass, 'broke down', 60)] };
    expect(standings.applyPasses(corrected)).toBe(true);
    expect(standings.toMap()).toEqual(fold([closed, corrected], 1).toMap());
    const unmarked = {
      ...open,
      log: open.log.flatMap((entry) =>
        entry.kind === 'pass' ? [entry, correctionOf(`c${entry.id}`, entry, 'unmarked', 60)] : [],
      ),
    };
    expect(standings.applyPasses(unmarked)).toBe(true);
    expect(standings.toMap()).toEqual(fold([closed], 1).toMap());
  });

  it('asks for a new fold when it is older than what was folded', () => {
    const standings = fold([open], 1);
    const before = standings.toMap();
    expect(standings.applyPasses(closed)).toBe(false);
    expect(standings.toMap()).toEqual(before);
  });

  it('goes on from a snapshot as from a fold', () => {
    const snapshot = structuredClone(fold([closed], 1).snapshot()!);
    const standings = Standings.fromSnapshot({ ...snapshot, print: '' }, [tune, other], evening(1, 3600));
    expect(standings.applyPasses(open)).toBe(true);
    expect(standings.toMap()).toEqual(fold([closed, open], 1).toMap());
  });
});
