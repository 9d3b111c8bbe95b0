import { describe, expect, it } from 'vitest';
import { makePlan } from '$lib/core/plan/make-plan';
import type { Plan, PlanRequest } from '$lib/core/plan/plan';
import { passageKey } from '$lib/core/tune/passage';
import type { Tune } from '$lib/core/tune/tune';
import { daysAgo, DOUBLE_C, G_TUNING, NOW, passagesOf, TableOfStandings, tuneOf } from './made-tunes';

function planFor(
  tunes: readonly Tune[],
  standings = new TableOfStandings(),
  change: Partial<PlanRequest> = {},
): Plan {
  return makePlan({
    tunes,
    standings,
    request: { now: NOW, minutes: 20, tuning: null, hands: 'fresh', ...change },
  });
}

const kinds = ({ items }: Plan) => items.map(({ reasonKind }) => reasonKind);

describe('what comes next in a tune', () => {
  it('begins a new tune with its first measures in playing order, four at a time and eight a day', () => {
    const plan = planFor([tuneOf({ counts: [6, 6] })], undefined, { minutes: 60 });
    expect(plan.items.map(({ measures }) => measures)).toEqual([
      ['A1', 'A2', 'A3', 'A4'],
      ['A5', 'A6'],
      ['B1', 'B2'],
    ]);
    expect(new Set(kinds(plan))).toEqual(new Set(['new figure']));
    expect(plan.items[0]?.reason).toBe('New: it begins Mill Race.');
    expect(plan.items[2]?.reason).toBe('New: it comes after A6 in playing order.');
  });

  it('counts the measures that were met today among the eight', () => {
    const tune = tuneOf({ counts: [6, 6] });
    const { figures } = passagesOf(tune);
    const newAfter = (count: number, change: Parameters<TableOfStandings['set']>[2]) => {
      const standings = new TableOfStandings().setAll(figures.slice(0, count), 60, {
        ...{ isSettled: false, days: 1 },
        ...change,
      });
      return planFor([tune], standings, { minutes: 60 })
        .items.filter(({ reasonKind }) => reasonKind === 'new figure')
        .flatMap(({ measures }) => measures);
    };
    expect(newAfter(5, { daysAgo: 0 })).toEqual(['A6', 'B1', 'B2']);
    expect(newAfter(8, { daysAgo: 0 })).toEqual([]);
    expect(newAfter(8, { daysAgo: 1 })).toEqual(['B3', 'B4', 'B5', 'B6']);
  });

  it('begins a measure once that comes twice', () => {
    const tune = tuneOf({ form: 'A', counts: [6] });
    const [part] = tune.parts;
    const [first] = part!.measures;
    const measures = part!.measures.map((measure, index) =>
      index === 4 ? { ...measure, figureId: first!.figureId } : measure,
    );
    const plan = planFor([{ ...tune, parts: [{ ...part!, measures }] }], undefined, { minutes: 60 });
    expect(plan.items.map((item) => item.measures)).toEqual([['A1', 'A2', 'A3', 'A4'], ['A6']]);
  });

  it('names the measure before a new one, and what it holds at', () => {
    const tune = tuneOf();
    const [a1] = passagesOf(tune).figures;
    const standings = new TableOfStandings().set(a1!, 60, { isSettled: false });
    const reasons = planFor([tune], standings).items.map(({ reason }) => reason);
    expect(reasons).toContain('New: it comes after A1, which holds at 60.');
    expect(reasons).toContain('The slowest link: clean at 60, and the goal is 100.');
  });

  it('takes a hard place that is far behind with what is next to it and alone, before the part', () => {
    const tune = tuneOf({ form: 'A', counts: [4] });
    const { figures, seams } = passagesOf(tune);
    const standings = new TableOfStandings().setAll([...figures, ...seams], 92).set(figures[1]!, 50);
    const plan = planFor([tune], standings, { minutes: 9 });
    expect(plan.items[0]).toMatchObject({
      measures: ['A1', 'A2'],
      reasonKind: 'in its surroundings',
      reason: 'A2 holds it back, clean at 50 of 100: here with what is around it.',
      settledTempo: null,
    });
    expect(plan.items.every(({ measures }) => measures.includes('A2'))).toBe(true);
    expect(plan.items.find(({ kind }) => kind === 'figure')).toMatchObject({
      reasonKind: 'slowest link',
      reason: 'The slowest link: clean at 50, while its neighbours hold at 92.',
      settledTempo: 50,
    });
  });

  it('takes the part at once where its slowest place is not far behind', () => {
    const tune = tuneOf({ form: 'A', counts: [4] });
    const { figures, seams } = passagesOf(tune);
    const standings = new TableOfStandings().setAll([...figures, ...seams], 92).set(figures[1]!, 78);
    expect(planFor([tune], standings, { minutes: 5 }).items[0]).toMatchObject({
      ...{ kind: 'part', reasonKind: 'join the part', settledTempo: null },
      reason: 'All three joins of part A hold at 78 or better. Now the part in one go.',
    });
  });

  it('names no measure as what holds a run back where all of them hold alike', () => {
    const tune = tuneOf({ form: 'A', counts: [3] });
    const { figures, seams } = passagesOf(tune);
    const reasonAt = (tempo: number) => {
      const standings = new TableOfStandings().setAll([...figures, ...seams], tempo, { isSettled: false });
      return planFor([tune], standings).items.find(({ kind }) => kind === 'phrase')?.reason;
    };
    expect(reasonAt(60)).toBe('One by one its measures come out clean at 60 of 100: here two in one go.');
    expect(reasonAt(104)).toBe('One by one its measures come out clean at 104: here two in one go.');
  });

  it('opens a seam as soon as both its figures are settled, and not before', () => {
    const tune = tuneOf({ form: 'A', counts: [3] });
    const { figures, seams } = passagesOf(tune);
    const standings = new TableOfStandings().setAll(figures.slice(0, 2), 80);
    const open = planFor([tune], standings).items.filter(({ reasonKind }) => reasonKind === 'open seam');
    expect(open.map(({ key }) => key)).toEqual([passageKey(seams[0]!)]);
    expect(open[0]?.reason).toBe(
      'Both measures hold now, at 80 or better. The join between them is untried.',
    );
  });

  it('says of a join that it drags when both its measures are faster', () => {
    const tune = tuneOf({ form: 'A', counts: [2] });
    const { figures, seams } = passagesOf(tune);
    const standings = new TableOfStandings().setAll(figures, 90).set(seams[0]!, 70);
    const item = planFor([tune], standings).items.find(({ kind }) => kind === 'seam');
    expect(item?.reason).toBe('The join drags: clean at 70, while both its measures hold at 90.');
  });

  it('joins a part and plays the whole through when all is met, and says what holds', () => {
    const tune = tuneOf();
    const { figures, seams, parts } = passagesOf(tune);
    const standings = new TableOfStandings().setAll([...figures, ...seams], 84);
    const joining = planFor([tune], standings, { minutes: 60 });
    expect(joining.items.filter(({ reasonKind }) => reasonKind === 'join the part')).toHaveLength(2);
    expect(joining.items.find(({ kind }) => kind === 'part')?.reason).toMatch(
      /^All .* joins of part A hold at 84/,
    );
    expect(joining.items.find(({ kind }) => kind === 'tune')).toMatchObject({
      reasonKind: 'play it through',
      reason: 'Every measure and every join holds. Now the whole tune.',
    });
    standings.setAll(parts, 82);
    const through = planFor([tune], standings, { minutes: 60 }).items.find(({ kind }) => kind === 'tune');
    expect(through?.reason).toBe('Both parts hold at 82 or better. Now the whole tune.');
  });

  it('plays no whole tune and no part of which a measure was not met yet', () => {
    const tune = tuneOf();
    const { figures, seams } = passagesOf(tune);
    const standings = new TableOfStandings().setAll([...figures.slice(0, 7), ...seams], 84);
    const plan = planFor([tune], standings, { minutes: 60 });
    expect(plan.items.filter(({ kind }) => kind === 'tune')).toEqual([]);
    expect(plan.items.filter(({ kind }) => kind === 'part').map(({ name }) => name)).toEqual(['Part A']);
    standings.setAll(figures, 60, { isSettled: false });
    const whole = planFor([tune], standings, { minutes: 60 }).items.find(({ kind }) => kind === 'tune');
    expect(whole?.reason).toBe(
      'Every measure is known and the slowest place comes out clean at 60: the whole tune brings them all on together.',
    );
  });

  it('offers the next layer when the present one is settled, where there is one', () => {
    const plain = tuneOf({ form: 'A', counts: [2] });
    const [, second] = plain.parts[0]!.measures;
    const figure = { ...plain.figures[0]!, id: 'with-drop-thumb' };
    const tune: Tune = {
      ...plain,
      figures: [...plain.figures, figure],
      layers: [...plain.layers, { id: 'layer-2', name: 'drop-thumb', changes: { [second!.id]: figure.id } }],
    };
    const { figures, seams, parts, whole } = passagesOf(tune);
    const standings = new TableOfStandings().setAll([...figures, ...seams, ...parts, whole], 76);
    const item = planFor([tune], standings, { minutes: 60 }).items.find(
      ({ reasonKind }) => reasonKind === 'next layer',
    );
    expect(item?.reason).toBe('The plain layer holds at 76, so the next one is due: drop-thumb, here in A2.');
    expect(kinds(planFor([plain], standings, { minutes: 60 }))).not.toContain('next layer');
  });

  it('refreshes a learned tune that is fading, as a whole', () => {
    const tune = tuneOf();
    const { figures, seams, parts, whole } = passagesOf(tune);
    const standings = new TableOfStandings().setAll([...figures, ...seams, ...parts, whole], 104, {
      ...{ daysAgo: 35, rust: 'likely faded', recall: 0.7 },
    });
    const plan = planFor([tune], standings);
    expect(plan.items.find(({ reasonKind }) => reasonKind === 'rusty')).toMatchObject({
      kind: 'tune',
      reason: 'Likely fading: last clean at 104, last played five weeks ago.',
      rust: 'likely faded',
    });
  });

  it('leaves a fresh tune alone that is surely at its goal, and says so', () => {
    const tune = tuneOf();
    const { figures, seams, parts, whole } = passagesOf(tune);
    const all = [...figures, ...seams, ...parts, whole];
    // the interval's low end is 0.94 of the tempo: 98.7 and 97.8, on the two sides of 98 % of the goal
    const plan = planFor([tune], new TableOfStandings().setAll(all, 105), { minutes: 10 });
    expect(plan.items).toEqual([]);
    expect(plan.leftOut).toEqual([
      { tuneId: tune.id, title: 'Mill Race', why: 'It holds at 105 and is fresh: last played yesterday.' },
    ]);
    const likely = planFor([tune], new TableOfStandings().setAll(all, 104), { minutes: 10 });
    expect(likely.items.map(({ reason }) => reason)).toEqual([
      'It holds at 104 played through, and the goal is 100.',
    ]);
  });

  it('counts a whole tune played since as keeping its links', () => {
    const tune = tuneOf({ form: 'A', counts: [2] });
    const { figures, seams, parts, whole } = passagesOf(tune);
    const standings = new TableOfStandings()
      .setAll([...figures, ...seams, ...parts], 105, { daysAgo: 40, rust: 'likely faded', recall: 0.6 })
      .set(whole, 105, { daysAgo: 2 });
    expect(planFor([tune], standings).items).toEqual([]);
  });
});

describe('how a plan fits the day', () => {
  it('begins with something settled from 15 minutes on', () => {
    const tune = tuneOf();
    const { figures } = passagesOf(tune);
    const standings = new TableOfStandings()
      .setAll(figures.slice(0, 3), 101)
      .set(figures[3]!, 60, { isSettled: false });
    expect(kinds(planFor([tune], standings, { minutes: 15 }))[0]).toBe('warm-up');
    expect(kinds(planFor([tune], standings, { minutes: 14 }))).not.toContain('warm-up');
  });

  it('warms up on the longest settled passage that a turn holds', () => {
    const tune = tuneOf({ goalTempo: 60, counts: [20, 4] });
    const { figures, seams, parts, whole } = passagesOf(tune);
    const standings = new TableOfStandings().setAll([...figures, ...seams], 50);
    const opening = () => planFor([tune], standings, { minutes: 20 }).items[0];
    expect(opening()).toMatchObject({ reasonKind: 'warm-up', kind: 'figure' });
    standings.setAll(parts, 50);
    expect(opening()).toMatchObject({ reasonKind: 'warm-up', name: 'Part A' });
    standings.set(parts[0]!, 50, { rust: 'likely faded' });
    expect(opening()).toMatchObject({ reasonKind: 'warm-up', name: 'Part B' });
    standings.set(parts[0]!, 50).set(whole, 50);
    expect(planFor([tune], standings, { minutes: 20 }).items[0]).toMatchObject({ reasonKind: 'warm-up' });
  });

  it('keeps to the tuning in hand when that is worth it, and counts each retuning', () => {
    const here = tuneOf({ title: 'Sandy Boys', tuning: G_TUNING });
    const there = tuneOf({ title: 'Angeline the Baker', tuning: DOUBLE_C });
    const standings = new TableOfStandings();
    for (const tune of [here, there]) {
      standings.setAll(passagesOf(tune).figures, 60, { isSettled: false });
    }
    const plan = planFor([there, here], standings, { minutes: 10, tuning: G_TUNING });
    expect(new Set(plan.items.map(({ title }) => title))).toEqual(new Set(['Sandy Boys']));
    expect(plan.leftOut[0]?.why).toBe('It is in gCGCD: retuning would take two of the ten minutes.');
    const only = planFor([there], standings, { minutes: 10, tuning: G_TUNING });
    expect(only.items.reduce((sum, { minutes }) => sum + minutes, 0)).toBe(only.minutes - 2);
  });

  it('puts tunes of one tuning together', () => {
    const tunes = [G_TUNING, DOUBLE_C, G_TUNING, DOUBLE_C].map((tuning, index) =>
      tuneOf({ title: `Tune ${index}`, tuning, form: 'A', counts: [2] }),
    );
    const standings = new TableOfStandings();
    for (const tune of tunes) standings.setAll(passagesOf(tune).figures, 60, { isSettled: false });
    const tunings = planFor(tunes, standings, { minutes: 60 }).items.map(({ tuning }) => tuning);
    const changes = tunings.filter((tuning, index) => index > 0 && tuning !== tunings[index - 1]);
    expect(changes).toHaveLength(1);
  });

  it('goes from hard places to what they belong to by turns, and so do the tunes', () => {
    const tunes = ['One', 'Two'].map((title) => tuneOf({ title, form: 'A', counts: [3] }));
    const standings = new TableOfStandings();
    for (const tune of tunes) {
      const { figures, seams } = passagesOf(tune);
      standings.setAll([...figures, ...seams], 60, { isSettled: false });
    }
    const isLong = ({ kind }: Plan['items'][number]) => kind === 'part' || kind === 'tune';
    const { items } = planFor(tunes, standings, { minutes: 14 });
    expect(items.map(isLong)).toEqual([false, true, false, true]);
    for (const long of [false, true]) {
      const titles = items.filter((item) => isLong(item) === long).map(({ title }) => title);
      expect(new Set(titles).size).toBe(2);
    }
    const [hard] = passagesOf(tunes[0]!).figures;
    const next = planFor(tunes, standings, { minutes: 14, drilled: [passageKey(hard!)] }).items;
    expect(next.map(isLong)).toEqual([true, false, true, false]);
  });

  it('rests after every stretch of at most 30 minutes', () => {
    const tunes = Array.from({ length: 12 }, (_, index) => tuneOf({ title: `Tune ${index}` }));
    const standings = new TableOfStandings();
    for (const tune of tunes) standings.setAll(passagesOf(tune).figures, 60, { isSettled: false });
    expect(planFor(tunes, standings, { minutes: 30 }).breaks).toEqual([]);
    const plan = planFor(tunes, standings, { minutes: 120 });
    expect(plan.breaks.length).toBeGreaterThanOrEqual(3);
    let from = 0;
    for (const { afterItem } of [...plan.breaks, { afterItem: plan.items.length - 1 }]) {
      const stretch = plan.items.slice(from, afterItem + 1).reduce((sum, { minutes }) => sum + minutes, 0);
      expect(stretch).toBeGreaterThan(0);
      expect(stretch).toBeLessThanOrEqual(30);
      from = afterItem + 1;
    }
  });

  it('asks less of tired hands and next to nothing of sore ones', () => {
    const tune = tuneOf();
    const standings = new TableOfStandings().setAll(passagesOf(tune).figures, 80, { isSettled: false });
    const fresh = planFor([tune], standings).items[0]!;
    const tired = planFor([tune], standings, { hands: 'tired' });
    const sore = planFor([tune], standings, { hands: 'sore' });
    expect(tired.minutes).toBeLessThanOrEqual(15);
    expect(sore.minutes).toBeLessThanOrEqual(5);
    expect(sore.caution).toMatch(/Stop if it hurts.*licensed clinician/);
    for (const { items } of [tired, sore]) {
      expect(items.length).toBeGreaterThan(0);
      for (const item of items) {
        expect(item.startTempo).toBeLessThan(fresh.startTempo);
        expect(item.towardTempo).toBeLessThanOrEqual(fresh.startTempo);
      }
    }
  });

  it('meets a learner who comes back after weeks with what has faded, slower, and with nothing new', () => {
    const [known, unplayed] = [tuneOf({ title: 'Kettle Lane' }), tuneOf({ title: 'Low Water' })];
    const played = (days: number) => {
      const standings = new TableOfStandings();
      for (const figure of passagesOf(known).figures) {
        const memory = days > 5 ? ({ rust: 'likely faded', recall: 0.6 } as const) : {};
        standings.set(figure, 80, { daysAgo: days, isSettled: false, ...memory });
      }
      return planFor([known, unplayed], standings, { minutes: 30 });
    };
    const [steady, back] = [played(1), played(22)];
    expect(steady.welcome).toBeNull();
    expect(steady.items.some(({ title }) => title === 'Low Water')).toBe(true);
    expect(back.welcome).toMatch(/^It is three weeks since you last played\. Kettle Lane has likely faded/);
    expect(back.items.length).toBeGreaterThan(0);
    for (const item of back.items) {
      expect(item.title).toBe('Kettle Lane');
      const same = steady.items.find(({ key }) => key === item.key);
      if (same) expect(item.startTempo).toBeLessThan(same.startTempo);
    }
    expect(back.items.some(({ key }) => steady.items.some((item) => item.key === key))).toBe(true);
    expect(planFor([unplayed], new TableOfStandings()).welcome).toBeNull();
    expect(played(13).welcome).toBeNull();
    expect(played(14).welcome).toMatch(/two weeks/);
  });

  it('leaves out what the learner will not do today, and takes up what they ask for', () => {
    const tune = tuneOf();
    const { figures } = passagesOf(tune);
    const standings = new TableOfStandings().setAll(figures, 104);
    const pinned = planFor([tune], standings, { pinned: [passageKey(figures[2]!), 'figure:gone:gone'] });
    expect(pinned.items.find(({ reasonKind }) => reasonKind === 'your choice')).toMatchObject({
      measures: ['A3'],
      reason: 'You asked for it: clean at 104, and the goal is 100.',
    });
    const skip = planFor([tune], standings).items.map(({ key }) => key);
    const others = planFor([tune], standings, { skip }).items.map(({ key }) => key);
    expect(others.filter((key) => skip.includes(key))).toEqual([]);
  });

  it('plans nothing of tunes put away, deleted, or without a measure to play', () => {
    const away = { ...tuneOf({ title: 'Away' }), archived: true };
    const deleted = { ...tuneOf({ title: 'Deleted' }), deletedAt: 1 };
    const empty = { ...tuneOf({ title: 'Empty' }), parts: [] };
    const broken = { ...tuneOf({ title: 'Broken' }), figures: [] };
    const plan = planFor([away, deleted, empty, broken]);
    expect(plan.items).toEqual([]);
    expect(plan.leftOut.map(({ title }) => title)).toEqual(['Empty', 'Broken']);
  });

  it('names the rule when asked for minutes that it cannot fill', () => {
    for (const minutes of [4, 121, NaN, -1, Infinity]) {
      expect(() => planFor([tuneOf()], undefined, { minutes })).toThrow(/5 to 120 minutes: saw/);
    }
    expect(() => planFor([tuneOf()], undefined, { now: { at: NaN, offsetMin: 0 } })).toThrow(RangeError);
  });

  it('survives passes from the future and a part of 400 measures', () => {
    const long = tuneOf({ title: 'Long', form: 'A', counts: [400] });
    const { figures, seams } = passagesOf(long);
    const standings = new TableOfStandings().setAll([...figures, ...seams], 90, {
      lastPlayed: { at: NOW.at + 1e10, offsetMin: 0 },
    });
    const plan = planFor([long], standings, { minutes: 30 });
    expect(plan.items.filter(({ kind }) => kind === 'phrase').length).toBeGreaterThan(0);
    expect(plan.items.every(({ reason }) => !/NaN|Infinity|undefined|null/.test(reason))).toBe(true);
    expect(daysAgo(0).at).toBeLessThan(NOW.at);
  });
});
