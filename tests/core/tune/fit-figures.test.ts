import { describe, expect, test } from 'vitest';
import { checkTune } from '../../../src/lib/core/book/schema';
import { changeMeasure } from '../../../src/lib/core/tune/change-measure';
import { draftOf, editTune } from '../../../src/lib/core/tune/edit-tune';
import { asWritten, fitFigures } from '../../../src/lib/core/tune/fit-figures';
import type { Figure, Tune } from '../../../src/lib/core/tune/tune';
import { figure, idOf, START, WINTER_TUNE } from '../book/made-up-books';

const LATER = { at: START + 1000, offsetMin: 60 };
let ids = 500;
const nextId = (): string => idOf((ids += 1));
const inMeter = (tune: Tune, meter: Tune['meter']): Tune =>
  editTune(tune, { ...draftOf(tune), meter, pickup: null }, nextId, LATER);
const figureOf = (tune: Tune, number: number): Figure =>
  tune.figures.find(({ id }) => id === idOf(number)) ?? figure(0);

/** A layer plays a measure of its own, late in the bar, where the first layer has nothing written yet. */
const LATE: Tune = {
  ...WINTER_TUNE,
  parts: [{ name: 'A', measures: WINTER_TUNE.parts[0]!.measures }],
  form: 'AA',
  figures: [
    figure(20),
    figure(21),
    {
      ...figure(22),
      strikes: [{ onset: [7, 8], duration: [1, 8], string: 5, fret: 0, technique: 'drone' }],
    },
  ],
};

describe('tab that a meter leaves no room for', () => {
  test('makes its measure longer, by half beats, and remembers the length in which it was written', () => {
    const fitted = fitFigures({ ...LATE, meter: '3/4', pickup: null });
    // 7/8 of a whole note is three and a half quarter-note beats in, so the note begins the eighth half beat
    expect(figureOf(fitted, 22)).toMatchObject({ beats: 4, writtenBeats: 2 });
    expect(figureOf(fitted, 21)).toBe(LATE.figures[1]);
    expect(checkTune(fitted)).toMatchObject({ ok: true });
    expect(fitFigures(fitted)).toBe(fitted);
    expect(asWritten(figureOf(fitted, 22))).toEqual(LATE.figures[2]);
  });

  test('stands in the way of no edit of the meter, even where a layer alone has it', () => {
    const edited = inMeter(LATE, '4/4');
    expect(checkTune(edited)).toMatchObject({ ok: true });
    expect(figureOf(edited, 22).beats).toBe(4);
    expect(inMeter(edited, '2/2').figures).toEqual(LATE.figures);
  });

  test('is of the new length once its measure is written anew', () => {
    const content = { beats: 3, strikes: [] };
    const layer = { layerId: idOf(31), measureId: idOf(10), scope: 'this' as const };
    const edited = changeMeasure(inMeter(LATE, '4/4'), { ...layer, content }, nextId, LATER);
    expect(figureOf(edited, 22)).toEqual({ ...figure(22, LATER.at), ...content });
    expect(inMeter(edited, '2/2').figures).toEqual(edited.figures);
  });

  test('fits the longest measure of the slowest beat into the fastest', () => {
    const last = { onset: [255, 16], duration: [1, 16], string: 1, fret: 0, technique: 'strike' } as const;
    const longest: Tune = {
      ...LATE,
      figures: [...LATE.figures, { ...figure(23), beats: 32, strikes: [last] }],
    };
    expect(checkTune(longest)).toMatchObject({ ok: true });
    const fitted = fitFigures({ ...longest, meter: '2/4' });
    expect(figureOf(fitted, 23)).toMatchObject({ beats: 64, writtenBeats: 32 });
    expect(checkTune(fitted)).toMatchObject({ ok: true });
  });

  test('and a length that no note asks for is damage', () => {
    const faults = (about: Partial<Figure>): unknown => {
      const figures = [...LATE.figures.slice(0, 2), { ...LATE.figures[2]!, ...about }];
      const checked = checkTune({ ...LATE, figures });
      return checked.ok ? null : checked.damage;
    };
    expect(faults({ beats: 3, writtenBeats: 2 })).toEqual([
      'figures, 3: its notes do not need 3 beats instead of the 2 that were written',
    ]);
    expect(faults({ beats: 2, writtenBeats: 3 })).not.toBeNull();
    expect(faults({ beats: 64 })).toEqual(['figures, 3: 64 beats are too many']);
    expect(faults({ beats: 2, writtenBeats: 1.5 })).toBeNull();
  });
});
