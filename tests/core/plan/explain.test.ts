import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readBackup } from '$lib/core/book/backup';
import { explainedSentences, explainPassage } from '$lib/core/plan/explain';
import { foldStandings } from '$lib/core/practice/standings';
import type { Drill, LogEntry, Outcome } from '$lib/core/practice/records';
import { passageKey, type Passage } from '$lib/core/tune/passage';
import { passageStretches } from '$lib/core/tune/places';
import { daysAgo, NOW, passagesOf, tuneOf } from './made-tunes';

const reading = readBackup(readFileSync('sample-data/demo-book.json', 'utf8'));
if (!reading.ok) throw new Error(reading.damage.join(' '));
const { book } = reading;
const now = { at: Date.UTC(2026, 10, 25, 17), offsetMin: 60 };

interface Played {
  passage: Passage;
  days: number;
  passes: readonly [tempo: number, outcome: Outcome, missAt?: number][];
}

/** A sitting for each run of passes, so many days ago. */
function sittingsOf(runs: readonly Played[]) {
  return runs.map(({ passage, days, passes }, run) => {
    const { at, offsetMin } = daysAgo(days);
    const drill: Drill = { id: `d${run}`, sittingId: `s${run}`, passage, climb: 'steady', at, offsetMin };
    const log = passes.map(([tempo, outcome, missAt], index): LogEntry => ({
      ...{ kind: 'pass', id: `p${run}-${index}`, drillId: drill.id, at: at + index * 1000, offsetMin },
      ...{ tempo, outcome, fromMemory: false, missAt: missAt ?? null },
    }));
    return { id: `s${run}`, at, offsetMin, drills: [drill], log };
  });
}

function explain(
  tunes: Parameters<typeof explainPassage>[0]['tunes'],
  runs: readonly Played[],
  passage: Passage,
) {
  const sittings = sittingsOf(runs);
  return explainPassage({
    tunes,
    sittings,
    standings: foldStandings({ tunes, sittings, now: NOW }),
    passage,
  });
}

describe('why this, why this tempo', () => {
  const tune = tuneOf({ form: 'A', counts: [4] });
  const { figures, seams, parts, whole } = passagesOf(tune);

  it('tells the passes day by day, with their tempos and what came out clean', () => {
    const told = explain(
      [tune],
      [
        {
          passage: figures[0]!,
          days: 8,
          passes: [
            [60, 'clean'],
            [62, 'stumbled'],
          ],
        },
        {
          passage: figures[0]!,
          days: 1,
          passes: [
            [64, 'clean'],
            [66, 'clean'],
            [68, 'broke down'],
          ],
        },
      ],
      figures[0]!,
    );
    expect(told.passes).toEqual([
      'Five passes on two days: 3 of the newest 5 were clean.',
      'Yesterday: 2 of 3 clean at 64–68.',
      '17 November: 1 of 2 clean at 60–62.',
    ]);
    expect(told.newest.map(({ tempo }) => tempo)).toEqual([60, 62, 64, 66, 68]);
    expect(told.moved[0]).toMatch(
      /^It stood at \d+ on the first day, 17 November, and at \d+ on the newest of two days, yesterday\.$/,
    );
    expect(told.tempo[0]).toBe(
      `A drill begins at ${told.comfortable}, where it should come out clean 19 times in 20.`,
    );
  });

  it('tells what playing the part, or the whole tune, said of a measure in it', () => {
    const told = explain(
      [tune],
      [
        { passage: figures[1]!, days: 3, passes: [[60, 'clean']] },
        {
          passage: parts[0]!,
          days: 2,
          passes: [
            [50, 'clean'],
            [55, 'stumbled', 1],
            [55, 'stumbled', 3],
            [55, 'stumbled', 0],
          ],
        },
        { passage: whole, days: 1, passes: [[58, 'stumbled']] },
      ],
      figures[1]!,
    );
    // the miss in the first measure says nothing of the second
    expect(told.newest.map(({ outcome }) => outcome)).toEqual([
      ...['clean', 'clean', 'stumbled', 'clean', 'somewhere'],
    ]);
    expect(told.passes).toContain(
      'Of the newest 5, three came from playing a part and one from playing the whole tune.',
    );
    expect(told.passes).toContain('Yesterday: one miss somewhere in something longer, at 58.');
    expect(told.passes).toContain('Monday: 2 of 3 clean at 50–55.');
  });

  it('says where the guess for an unplayed passage comes from', () => {
    expect(explain([tune], [], figures[0]!).tempo[1]).toMatch(/^Nothing of this tune has been played/);
    const runs: Played[] = [{ passage: figures[0]!, days: 2, passes: [[60, 'clean']] }];
    expect(explain([tune], runs, figures[1]!).tempo[1]).toMatch(
      /^Without its tab, the guess goes by the measures/,
    );
    expect(explain([tune], runs, seams[0]!).tempo[1]).toMatch(
      /^The guess goes by what it joins, A1 at \d+ and A2 not played yet/,
    );
    expect(explain([tune], runs, whole).tempo[1]).toMatch(/slowest link in it, measure 1, part A at \d+/);
    const full = book.tunes.find(({ title }) => title === 'Old Joe Clark')!;
    const bare = { ...full, id: 'bare' };
    const [first, second] = passagesOf(bare).figures;
    const tab = explain([bare], [{ passage: first!, days: 1, passes: [[60, 'clean']] }], second!);
    expect(tab.tempo[1]).toMatch(/^The guess goes by the measures most like it to the hands, A1 at \d+/);
  });

  it('says in one sentence that a passage is gone', () => {
    const gone = explain([tune], [], { kind: 'figure', tuneId: tune.id, figureId: 'gone' });
    expect(explainedSentences(gone)).toEqual(['Mill Race has no such passage any more.']);
    const away = explain([], [], figures[0]!);
    expect(explainedSentences(away)).toEqual(['The tune of this passage is not in the book.']);
  });
});

describe('of the demo book', () => {
  const standings = foldStandings({ tunes: book.tunes, sittings: book.sittings, now });
  const all = [...standings.toMap().values()].filter(({ passage }) => {
    const tune = book.tunes.find(({ id }) => id === passage.tuneId);
    return tune && passageStretches(tune, passage).length > 0;
  });

  it('every passage has its sentences, and the passes told are those that the fold counted', () => {
    let checked = 0;
    for (const standing of all) {
      const { tunes, sittings } = book;
      const told = explainPassage({ tunes, sittings, standings, passage: standing.passage });
      for (const sentence of explainedSentences(told)) {
        expect(sentence).toMatch(/^[A-Z0-9].*\.$/s);
        expect(sentence).not.toMatch(/NaN|Infinity|undefined|null/);
      }
      expect(told.key).toBe(passageKey(standing.passage));
      if (standing.passes > 20) continue;
      checked += 1;
      expect(told.newest.length, told.stands).toBe(standing.passes);
    }
    expect(checked).toBeGreaterThan(5);
  });
});
