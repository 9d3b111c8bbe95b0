import { describe, expect, it } from 'vitest';
import { nearSameWords, toldNearSame } from '../../../src/lib/core/notation/near-same-words';
import { addLayer } from '../../../src/lib/core/tune/layers';
import { changeMeasure } from '../../../src/lib/core/tune/change-measure';
import { countToLearn, nearSame } from '../../../src/lib/core/tune/near-same';
import { boardMeasures, shownByLayer } from '../../../src/lib/core/tune/layer-figures';
import { joinFigures, restoreShape, splitOff } from '../../../src/lib/core/tune/share-figures';
import type { Strike } from '../../../src/lib/core/tune/strike';
import type { Id, Tune } from '../../../src/lib/core/tune/tune';
import { NOW, sampleTune } from './sample';

const LATER = { ...NOW, at: NOW.at + 1000 };
const newId = (): Id => '0193c444-0000-7000-8000-000000000000';

/** Four eighths in 2/4 on the first string, by their frets. */
function frets(...of: [number, number, number, number]): Strike[] {
  return of.map((fret, at) => ({
    onset: [at, 8],
    duration: [1, 8],
    string: 1,
    fret,
    technique: 'strike',
  }));
}

function tuneOf(measures: readonly (Strike[] | null)[]): Tune {
  const parts = [{ name: 'A', measures: measures.map((strikes) => ({ beats: 2, strikes, sameAs: null })) }];
  return sampleTune({ form: 'A', parts });
}

const plain = (tune: Tune): Id => tune.layers[0]?.id ?? '';
const shown = (tune: Tune): Id[] => [...(shownByLayer(tune)[0]?.values() ?? [])];
const words = (tune: Tune): string[] => toldNearSame(tune, plain(tune)).map((told) => told.words);

describe('nearly the same measures', () => {
  it('are told by their last beat and by the note that differs', () => {
    const tune = tuneOf([frets(0, 2, 3, 0), frets(0, 2, 3, 2)]);
    expect(words(tune)).toEqual([
      'A2 is A1 but for the last beat: second fret of the first string instead of open.',
    ]);
  });

  it('are told by a beat in the middle, and by what is not there', () => {
    const six = (fret: number | null): Strike[] =>
      [0, 1, 2, 3, 4, 5].flatMap((at) => {
        const stop = at === 2 ? fret : 0;
        const rest = { duration: [1, 8], string: 2, technique: 'strike' } as const;
        return stop === null ? [] : [{ ...rest, onset: [at, 8] as const, fret: stop }];
      });
    const measures = [six(0), six(null)].map((strikes) => ({ beats: 3, strikes, sameAs: null }));
    const tune = sampleTune({ form: 'A', meter: '3/4', parts: [{ name: 'A', measures }] });
    expect(words(tune)).toEqual(['A2 is A1 but for beat two: nothing instead of the open second string.']);
  });

  it('are not those that differ here and there, have another length, or have nothing to compare', () => {
    expect(words(tuneOf([frets(0, 2, 3, 0), frets(1, 2, 4, 0), null, null]))).toEqual([]);
    const lengths = [frets(0, 2, 3, 0), frets(0, 2, 3, 0)];
    const measures = lengths.map((strikes, at) => ({ beats: 2 + at, strikes, sameAs: null }));
    expect(words(sampleTune({ form: 'A', parts: [{ name: 'A', measures }] }))).toEqual([]);
  });

  it('differ at the same places whichever is first, and by none from themselves set apart', () => {
    const [one, other] = [frets(0, 2, 3, 0), frets(0, 2, 3, 5)];
    const places = ([a, b]: [Strike[], Strike[]]) =>
      nearSame(tuneOf([a, b]), plain(tuneOf([a, b]))).map(({ differences }) => differences);
    expect(places([one, other])).toEqual(places([other, one]));
    const tune = tuneOf([one, one]);
    const [pair] = nearSame(tune, plain(tune));
    expect(pair && nearSameWords(tune, plain(tune), pair)).toBe(
      'A2 sounds the same as A1, and is learned on its own.',
    );
  });

  it('are found among 400 measures', () => {
    const at = (count: number): Strike[] =>
      frets(count % 12, (count >> 2) % 12, (count >> 4) % 12, count % 5);
    const tune = tuneOf(Array.from({ length: 400 }, (_, count) => at(count)));
    expect(nearSame(tune, plain(tune)).length).toBeGreaterThan(0);
  });
});

describe('saying that measures are the same, or not', () => {
  it('joins two figures and leaves the other one in the tune, with its passes', () => {
    const tune = tuneOf([frets(0, 2, 3, 0), frets(0, 2, 3, 2), frets(0, 0, 0, 0)]);
    const [kept = '', other = ''] = shown(tune);
    const joined = joinFigures(tune, plain(tune), kept, other, LATER);
    expect(shown(joined).slice(0, 2)).toEqual([kept, kept]);
    expect(joined.figures).toEqual(tune.figures);
    expect(countToLearn(joined, plain(tune))).toEqual({ measures: 3, figures: 2 });
    const split = splitOff(joined, plain(tune), boardMeasures(tune)[1]?.id ?? '', newId, LATER);
    expect(shown(split).slice(0, 2)).toEqual([kept, newId()]);
  });

  it('stays in its own layer', () => {
    const tune = addLayer(tuneOf([frets(0, 2, 3, 0), frets(0, 2, 3, 2)]), 'slides', newId, NOW);
    const [kept = '', other = ''] = shown(tune);
    const joined = joinFigures(tune, newId(), kept, other, LATER);
    expect(shown(joined)).toEqual([kept, other]);
    expect([...(shownByLayer(joined)[1]?.values() ?? [])]).toEqual([kept, kept]);
  });

  it('is undone as an edit of its own time', () => {
    const tune = tuneOf([frets(0, 2, 3, 0), frets(0, 2, 3, 2)]);
    const [kept = '', other = ''] = shown(tune);
    const layered = addLayer(joinFigures(tune, plain(tune), kept, other, LATER), 'slides', newId, LATER);
    const [measureId = ''] = boardMeasures(tune).map(({ id }) => id);
    const content = { beats: 2, strikes: frets(5, 5, 5, 5) };
    const written = changeMeasure(
      layered,
      { layerId: plain(tune), measureId, content, scope: 'shared' },
      newId,
      LATER,
    );
    const back = restoreShape(written, tune, { ...LATER, at: LATER.at + 5 });
    expect(shown(back)).toEqual([kept, other]);
    expect(back.figures.map(({ strikes }) => strikes)).toEqual(tune.figures.map(({ strikes }) => strikes));
    expect(boardMeasures(back)[1]?.editedAt).toBe(LATER.at + 5);
    expect(back.layers).toEqual(tune.layers);
    expect(back.layerShelf?.map(({ name }) => name)).toEqual(['slides']);
  });
});
