// Source: the ABC music standard 2.1 (Walshaw, December 2011), abcnotation.com/wiki/abc:standard:v2.1; sections are named
// beside each check. Ticks are those of a MIDI file with 480 to the quarter.
import { describe, expect, test } from 'vitest';
import { playOrder } from '../../src/lib/core/notation/play-order';
import type { Score } from '../../src/lib/core/notation/score';
import { readAbc } from '../../src/lib/core/notation/abc/read-abc';
import { add, multiply, toNumber, type Rational } from '../../src/lib/core/rhythm/rational';

function scoreOf(body: string, head = 'M:4/4\nK:C'): Score {
  const { scores } = readAbc(`X:1\n${head}\n${body}\n`);
  return scores[0]!;
}

/** Onsets in ticks and pitches of what is played. */
function heard(score: Score): { ticks: number[]; pitches: number[] } {
  const voice = score.voices[0]!;
  let start: Rational = [0, 1];
  const ticks: number[] = [];
  const pitches: number[] = [];
  for (const index of playOrder(voice, score.order)) {
    const measure = voice.measures[index]!;
    for (const { onset, pitch, tied } of measure.notes) {
      if (tied) continue;
      ticks.push(toNumber(multiply(add(start, onset), [1920, 1])));
      pitches.push(pitch);
    }
    start = add(start, measure.length);
  }
  return { ticks, pitches };
}

describe('section 4.4, broken rhythm', () => {
  test.each(['a>b c<d abcd', 'a3/2b/2 c/2d3/2 abcd'])('%s', (body) => {
    expect(heard(scoreOf(body, 'M:4/4\nL:1/8\nK:C')).ticks).toEqual([
      0, 360, 480, 600, 960, 1200, 1440, 1680,
    ]);
  });
  test('the same in sixteenths', () => {
    const score = scoreOf('a3b cd3 a2b2c2d2', 'M:4/4\nL:1/16\nK:C');
    expect(heard(score).ticks).toEqual([0, 360, 480, 600, 960, 1200, 1440, 1680]);
  });
  test('grace notes between are as if they were not there (section 4.12)', () => {
    expect(heard(scoreOf('A<{g}A')).ticks).toEqual(heard(scoreOf('A/2{g}A3/2')).ticks);
  });
});

describe('sections 4.8 and 4.9, repeats and endings', () => {
  test.each(['', '|:'])('the example with %s plays 23 notes', (sign) => {
    const score = scoreOf(`${sign}faf gfe|1 dfe dBA:|2 d2e dcB|]`, 'M:6/8\nL:1/8\nK:D');
    expect(heard(score).pitches).toHaveLength(23);
  });
  test('|:: and ::| play three times', () => {
    expect(heard(scoreOf('|::CDEF::|')).pitches).toHaveLength(12);
  });
  test(':: is the end of one and the beginning of the next', () => {
    expect(heard(scoreOf('|:CD::EF:|')).pitches).toEqual([60, 62, 60, 62, 64, 65, 64, 65]);
  });
  test('lists of endings (section 4.10)', () => {
    expect(scoreOf('|:C|[1,3 D:|[2,4-6 E:|').voices[0]!.measures.map(({ ending }) => ending)).toEqual([
      null,
      [1, 3],
      [2, 4, 5, 6],
    ]);
  });
});

describe('section 3.1.7, lengths without L:', () => {
  test.each([
    ['2/4', 120],
    ['3/4', 240],
    ['6/8', 240],
    ['4/4', 240],
    ['C', 240],
    ['C|', 240],
    ['none', 240],
  ])('in %s', (meter, ticks) => {
    expect(heard(scoreOf('CD', `M:${meter}\nK:C`)).ticks).toEqual([0, ticks]);
  });
});

describe('section 4.13, notes in the time of others', () => {
  test.each([
    ['(3abc', '4/4', 160],
    ['(2ab', '6/8', 360],
    ['(4abcd', '6/8', 180],
    ['(5abcde', '2/4', 96],
    ['(5abcde', '6/8', 144],
  ])('%s in %s', (body, meter, step) => {
    const { ticks } = heard(scoreOf(body, `M:${meter}\nL:1/8\nK:C`));
    expect(ticks).toEqual(ticks.map((_, place) => place * step));
    expect(ticks.length).toBeGreaterThan(1);
  });
  test.each(['(3:2:2G4c2', '(3::2G4c2'])('%s: three in the time of two for two notes', (body) => {
    expect(heard(scoreOf(`${body}d`, 'M:4/4\nL:1/8\nK:C')).ticks).toEqual([0, 640, 960]);
  });
});

describe('section 3.1.14, keys', () => {
  test.each([
    ['C', [60, 62, 64, 65, 67, 69, 71]],
    ['Am', [60, 62, 64, 65, 67, 69, 71]],
    ['DDor', [60, 62, 64, 65, 67, 69, 71]],
    ['G', [60, 62, 64, 66, 67, 69, 71]],
    ['ADorian', [60, 62, 64, 66, 67, 69, 71]],
    ['A Mix', [61, 62, 64, 66, 67, 69, 71]],
    ['Bb', [60, 62, 63, 65, 67, 69, 70]],
    ['F#m', [61, 62, 64, 66, 68, 69, 71]],
  ])('K:%s', (key, pitches) => {
    expect(heard(scoreOf('CDEFGAB', `K:${key}`)).pitches).toEqual(pitches);
  });
  test('K:D Phr ^f is D Eb F# G A Bb C', () => {
    expect(heard(scoreOf('DEFGABc', 'K:D Phr ^f')).pitches).toEqual([62, 63, 66, 67, 69, 70, 72]);
  });
});

test('section 4.2, an accidental holds to the bar line, and over it with a tie', () => {
  expect(heard(scoreOf('^FF=FF|F^F-|FF')).pitches).toEqual([66, 66, 65, 65, 65, 66, 65]);
});

test('sections 3.1.8 and 3.1.9: the tempo in beats, the order of the parts', () => {
  expect(scoreOf('C', 'M:4/4\nQ:1/2=120\nK:C').tempo).toBe(240);
  expect(scoreOf('C', 'M:4/4\nQ:"lively" 1/4 3/8 1/4 3/8=40\nK:C').tempo).toBe(200);
  expect(scoreOf('P:A\nC|\nP:B\nD|', 'P:A2.(BA)2\nK:C').order?.join('')).toBe('AABABA');
});
