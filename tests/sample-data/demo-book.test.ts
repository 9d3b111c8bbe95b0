import { readFileSync, statSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { readBackup } from '$lib/core/book/backup';
import type { Book } from '$lib/core/book/book';
import { foldStandings } from '$lib/core/practice/standings';
import { tuneSummaries, type TuneSummary } from '$lib/core/progress/tune-summary';
import { changedMeasures, figuresNewIn } from '$lib/core/tune/layers';
import { DAY_MS } from '$lib/core/time/moment';
import { practiceDay, practiceDayDate } from '$lib/core/time/practice-day';
import { makeDemoBook } from '../../sample-data/make-demo';

const FILE = 'sample-data/demo-book.json';
const now = { at: Date.UTC(2026, 10, 25, 17), offsetMin: 60 };

describe('the demo book', () => {
  let book: Book;
  let tunes: TuneSummary[];
  beforeAll(() => {
    const reading = readBackup(readFileSync(FILE, 'utf8'));
    if (!reading.ok) throw new Error(reading.damage.join(' '));
    book = reading.book;
    tunes = tuneSummaries(book.tunes, foldStandings({ ...book, now }));
  });

  it('is what its script makes, byte for byte', { timeout: 120_000 }, () => {
    expect(makeDemoBook() === readFileSync(FILE, 'utf8')).toBe(true);
  });

  it('is small enough to be loaded by a touch', () => {
    expect(statSync(FILE).size).toBeLessThan(900_000);
  });

  it('tells ten weeks, about five sittings a week, up to the evening before', () => {
    const days = book.sittings.map((sitting) => practiceDay(sitting));
    expect(practiceDayDate(Math.max(...days))).toBe('2026-11-24');
    expect(Math.max(...days) - Math.min(...days)).toBe(70);
    expect(book.sittings.length).toBeGreaterThan(42);
    expect(book.sittings.length).toBeLessThan(60);
    expect(book.sittings.every(({ at, endedAt }) => endedAt - at < 45 * 60_000)).toBe(true);
  });

  it('keeps local clocks that went back on 25 October 2026', () => {
    // the IANA time zone of a Central European town, as this runtime's Intl has it
    const local = new Intl.DateTimeFormat('en-GB', {
      timeZone: 'Europe/Brussels',
      timeZoneName: 'longOffset',
    });
    const offsets = new Set<number>();
    for (const { at, offsetMin } of book.sittings) {
      const zone = local.formatToParts(at).find(({ type }) => type === 'timeZoneName')?.value;
      expect(zone).toBe(`GMT+0${offsetMin / 60}:00`);
      offsets.add(offsetMin);
    }
    expect(offsets).toEqual(new Set([120, 60]));
  });

  it('is marked as demo in every record that carries a mark', () => {
    expect([...book.tunes, ...book.sittings].every(({ origin }) => origin === 'demo')).toBe(true);
    expect(book.settings).toEqual([]);
  });

  it('has a tune whose second layer is in the hands, climbing from well under the goal', () => {
    expect(tunes.filter(({ layer }) => layer !== 'plain').map(({ title, layer }) => [title, layer])).toEqual([
      ['Old Joe Clark', 'drop-thumb'],
    ]);
    const tune = book.tunes.find(({ title }) => title === 'Old Joe Clark');
    const layerId = tune?.layers[1]?.id ?? '';
    // A5, A6, B3 and B5 repeat A1, A2 and B1
    expect(tune && changedMeasures(tune, layerId)).toHaveLength(7);
    const brought = tune ? figuresNewIn(tune, layerId) : [];
    expect(brought).toHaveLength(3);
    for (const figureId of brought) {
      const drills = book.sittings.flatMap((sitting) =>
        sitting.drills
          .filter(({ passage }) => passage.kind === 'figure' && passage.figureId === figureId)
          .map(({ id }) => sitting.log.filter((entry) => entry.kind === 'pass' && entry.drillId === id)),
      );
      const tempos = drills.flat().map((entry) => ('tempo' in entry ? entry.tempo : 0));
      expect(tempos.length).toBeGreaterThanOrEqual(8);
      expect(tempos[0]).toBeLessThan(0.7 * (tune?.goalTempo ?? 0));
    }
  });

  it('has tunes near their goal, one gone rusty and one barely begun, in at least three tunings', () => {
    expect(new Set(tunes.map(({ tuning }) => tuning)).size).toBeGreaterThanOrEqual(3);
    const near = tunes.filter(({ settled, goal }) => (settled?.tempo ?? 0) >= 0.78 * goal);
    expect(near.length).toBeGreaterThanOrEqual(2);
    const rusty = tunes.filter(
      ({ rust, lastPlayed }) => rust !== 'fresh' && now.at - (lastPlayed?.at ?? 0) > 21 * DAY_MS,
    );
    expect(rusty.map(({ title }) => title)).toEqual(['Cluck Old Hen']);
    const begun = tunes.find(({ title }) => title === "Soldier's Joy");
    expect(begun).toMatchObject({ figures: 10 });
    expect(begun?.settledFigures).toBeLessThanOrEqual(2);
  });
});
