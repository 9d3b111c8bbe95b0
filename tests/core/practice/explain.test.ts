import { expect, it } from 'vitest';
import { explainPassage } from '../../../src/lib/core/practice/explain';
import { foldStandings } from '../../../src/lib/core/practice/standings';
import { evening, figure, sittingOn, testTune } from './book';

const tune = testTune('Larkspur');

it('says what is expected of a passage that was never played, and from what', () => {
  const standings = foldStandings({ tunes: [tune], sittings: [], now: evening(0) });
  const { comfortable } = standings.of(figure(tune, 0));
  expect(explainPassage(standings, tune, figure(tune, 0))).toEqual({
    name: 'Measure 1, part A',
    sentences: [
      'Not played yet, nor anything else of this tune. What to expect of it comes from its goal tempo.',
      `Begin at ${comfortable}: there a clean pass is about 95 % likely.`,
    ],
  });
});

it('leads from the passes to the tempo', () => {
  const sittings = [
    sittingOn('1', figure(tune, 0), 0, [{ tempo: 50 }, { tempo: 54 }, { tempo: 58, outcome: 'stumbled' }]),
    sittingOn('2', figure(tune, 1), 0, [{ tempo: 80 }, { tempo: 90 }, { tempo: 95 }]),
  ];
  const standings = foldStandings({ tunes: [tune], sittings, now: evening(3) });
  const { sentences } = explainPassage(standings, tune, figure(tune, 0));
  expect(sentences[0]).toBe('Played 3 times on 1 day, last 3 days ago, 2 of the newest 3 clean.');
  expect(sentences[1]).toBe('The newest passes: clean at 50, clean at 54, stumbled at 58.');
  expect(sentences[2]).toMatch(
    /^By its passes it comes out clean 17 times in 20 at about \d+, four chances in five that it is between \d+ and \d+; the goal is 100\.$/,
  );
  expect(sentences).toContain('It counts as settled only when it holds on another day, a night later.');
  expect(sentences.join(' ')).toMatch(
    /holds the tune back: the next slowest, Measure 2, part A, is at \d+\./,
  );
  expect(sentences.at(-1)).toMatch(/^Begin at \d+: /);
});
