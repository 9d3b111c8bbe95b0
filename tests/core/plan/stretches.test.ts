import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stretchesOf, type Stretch } from '$lib/core/plan/stretches';
import { tuneState } from '$lib/core/plan/tune-state';
import type { Tune } from '$lib/core/tune/tune';
import { passageBeats } from '$lib/core/tune/places';
import { NOW, passagesOf, TableOfStandings, tuneOf } from './made-tunes';

function stretchesIn(tune: Tune, standings: TableOfStandings): Stretch[] {
  return stretchesOf(tuneState(tune, standings, NOW)!);
}

const kindsOf = (stretches: readonly Stretch[]) => {
  const counts: Record<string, number> = {};
  for (const { link } of stretches) {
    const { kind } = link().passage;
    counts[kind] = (counts[kind] ?? 0) + 1;
  }
  return counts;
};

/** The same figure in two places, in a form with repeats. */
const repeating = (): Tune => {
  const tune = tuneOf({ counts: [4, 4] });
  const [a, b] = tune.parts;
  const first = a!.measures[0]!.figureId;
  const measures = a!.measures.map((measure, index) =>
    index === 2 ? { ...measure, figureId: first } : measure,
  );
  return { ...tune, parts: [{ ...a!, measures }, b!] };
};

describe('what can be drilled of a tune', () => {
  it('is each measure, runs of two to four inside a part, the parts and the whole when all is met', () => {
    const tune = tuneOf({ counts: [5, 4] });
    const { figures } = passagesOf(tune);
    const standings = new TableOfStandings().setAll(figures, 70, { isSettled: false });
    // part A: 4 + 3 + 2 runs of two, three and four; part B: 3 + 2, its run of four is the part
    expect(kindsOf(stretchesIn(tune, standings))).toEqual({ figure: 9, phrase: 9 + 5, part: 2, tune: 1 });
  });

  it('takes a part of more than eight measures by the eight as well, from every fourth', () => {
    const tune = tuneOf({ form: 'A', counts: [16] });
    const standings = new TableOfStandings().setAll(passagesOf(tune).figures, 70, { isSettled: false });
    const eights = stretchesIn(tune, standings).filter(({ where }) => where?.count === 8);
    expect(eights.map(({ where }) => where?.from)).toEqual([0, 4, 8]);
  });

  it('is nothing before anything is met', () => {
    expect(stretchesIn(tuneOf(), new TableOfStandings())).toEqual([]);
  });

  it('holds a join when it was played, or when both its ends are settled', () => {
    const tune = tuneOf({ form: 'A', counts: [4] });
    const { figures, seams } = passagesOf(tune);
    const seamsOf = (standings: TableOfStandings) =>
      stretchesIn(tune, standings).flatMap(({ link }) =>
        link().passage.kind === 'seam' ? [link().key] : [],
      );
    const standings = new TableOfStandings().setAll(figures, 70, { isSettled: false });
    expect(seamsOf(standings)).toEqual([]);
    standings.set(figures[0]!, 70).set(figures[1]!, 70);
    const [first] = seamsOf(standings);
    expect(seamsOf(standings)).toHaveLength(1);
    standings.set(seams[2]!, 50, { isSettled: false });
    expect(seamsOf(standings)).toHaveLength(2);
    expect(seamsOf(standings)[0]).toBe(first);
  });

  it('is the whole only when each of its measures is met', () => {
    const tune = tuneOf();
    const { figures } = passagesOf(tune);
    const standings = new TableOfStandings().setAll(figures.slice(1), 70);
    expect(kindsOf(stretchesIn(tune, standings))['tune']).toBeUndefined();
    expect(kindsOf(stretchesIn(tune, standings.set(figures[0]!, 40)))['tune']).toBe(1);
  });

  it('plays the repeats of the form in the whole, and a measure twice where it comes twice', () => {
    const tune = repeating();
    const standings = new TableOfStandings().setAll(passagesOf(tune).figures, 70, { isSettled: false });
    const whole = stretchesIn(tune, standings).find(({ link }) => link().passage.kind === 'tune')!;
    // AABB of four measures each, and the joins between: 16 + 15
    expect(whole.links).toHaveLength(31);
    expect(whole.links.filter((link) => link === 0)).toHaveLength(4);
  });
});

describe('whatever has been met', () => {
  const anyTune = fc.record({
    form: fc.constantFrom('A', 'AB', 'AABB', 'ABAC'),
    counts: fc.array(fc.integer({ min: 1, max: 12 }), { minLength: 3, maxLength: 3 }),
  });
  const anyMarks = fc.array(fc.constantFrom('not met', 'met', 'settled'), { minLength: 1, maxLength: 9 });

  it('no two are the same, only met measures are in them, and their beats are those of the passage', () => {
    fc.assert(
      fc.property(anyTune, anyMarks, fc.boolean(), (wish, marks, repeats) => {
        const tune = repeats ? repeating() : tuneOf(wish);
        const { figures, seams } = passagesOf(tune);
        const standings = new TableOfStandings();
        for (const [at, link] of [...figures, ...seams].entries()) {
          const mark = marks[at % marks.length]!;
          if (mark !== 'not met') standings.set(link, 70, { isSettled: mark === 'settled' });
        }
        const state = tuneState(tune, standings, NOW)!;
        const found = stretchesOf(state);
        expect(new Set(found.map(({ links }) => links.join())).size).toBe(found.length);
        expect(new Set(found.map(({ link }) => link().key)).size).toBe(found.length);
        for (const { links, beats, link } of found) {
          const met = links.filter((place) => place < figures.length).map((place) => state.figures[place]!);
          expect(met.every(({ standing }) => standing.passes > 0)).toBe(true);
          expect(beats).toBeCloseTo(passageBeats(tune, link().passage), 9);
        }
      }),
      { numRuns: 150 },
    );
  });
});
