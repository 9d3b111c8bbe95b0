import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { referenceTones, retuning, type NeckSetup, type RetuneStep } from '$lib/core/tune/retune';
import { COMMON_TUNINGS, soundingPitch, type StringNumber, type Tuning } from '$lib/core/tune/tuning';

const neck = (called: string, capo = 0, spike = capo): NeckSetup => {
  const found = COMMON_TUNINGS.find((tuning) => tuning.called === called);
  if (!found) throw new Error(`No common tuning is called ${called}`);
  return { tuning: found.tuning, capo, spike };
};
const sentences = (from: NeckSetup | null, to: NeckSetup) =>
  retuning(from, to).steps.map(({ sentence }) => sentence);

describe('reference tones', () => {
  it('are the open strings as they sound, fifth to first', () => {
    expect(referenceTones(neck('G')).map(({ string, name, midi }) => [string, name, midi])).toEqual([
      [5, 'G', 67],
      [4, 'D', 50],
      [3, 'G', 55],
      [2, 'B', 59],
      [1, 'D', 62],
    ]);
  });

  /** SCIENCE.md check 15 [common practice]: G with a capo at 2 and the short string up 2 is A; frequencies of ISO 16. */
  it('follow capo and spike', () => {
    const tones = referenceTones(neck('G', 2));
    expect(tones.map(({ name }) => name)).toEqual(['A', 'E', 'A', 'C#', 'E']);
    const table = [440, 164.8138, 220, 277.1826, 329.6276];
    tones.forEach(({ hz }, index) => expect(hz).toBeCloseTo(table[index]!, 3));
  });
});

/** The steps that players take between these tunings: common practice. */
describe('the way from one tuning to another', () => {
  it('from G to double C lowers the fourth string and raises the second', () => {
    expect(sentences(neck('G'), neck('double C'))).toEqual([
      "Lower the fourth string two frets' worth: D to C.",
      "Raise the second string one fret's worth: B to C.",
    ]);
  });

  it('from G to sawmill raises the second string only', () => {
    expect(sentences(neck('G'), neck('sawmill'))).toEqual([
      "Raise the second string one fret's worth: B to C.",
    ]);
  });

  it('from G to A by the capo: capo, then the short string', () => {
    expect(sentences(neck('G'), neck('G', 2))).toEqual([
      'Put the capo at the second fret.',
      "Raise the fifth string two frets' worth: G to A (or use its spike).",
    ]);
  });

  it('and back takes both off', () => {
    expect(sentences(neck('G', 2), neck('G'))).toEqual([
      'Take the capo off.',
      'Take the fifth string off its spike.',
    ]);
  });

  it('takes the capo off to tune, and puts it back', () => {
    expect(sentences(neck('G', 2), neck('double C', 2))).toEqual([
      'Take the capo off.',
      "Lower the fourth string two frets' worth: D to C.",
      "Raise the second string one fret's worth: B to C.",
      'Put the capo at the second fret.',
    ]);
  });

  it('from double C to double D by the pegs raises all five', () => {
    const steps = sentences(neck('double C'), neck('double D'));
    expect(steps).toHaveLength(5);
    expect(steps[0]).toBe("Raise the fourth string two frets' worth: C to D.");
    expect(steps.at(-1)).toBe("Raise the fifth string two frets' worth: G to A.");
  });

  it('to f#DF#AD lowers the short string without a word of its spike', () => {
    expect(sentences(neck('G'), neck('D')).at(-1)).toBe("Lower the fifth string one fret's worth: G to F#.");
  });

  it('puts the short string under its spike when it has far to go', () => {
    expect(sentences(neck('G'), neck('G', 5)).at(-1)).toBe(
      "Put the fifth string under its spike, five frets' worth up: G to C.",
    );
  });

  it('is nothing when the banjo is there already', () => {
    expect(retuning(neck('double C', 2), neck('double C', 2))).toEqual({ steps: [], cautions: [] });
  });

  it('names each string when the tuning in hand is not known', () => {
    expect(sentences(null, neck('sawmill', 2))).toEqual([
      'Tune the fourth string to D.',
      'Tune the third string to G.',
      'Tune the second string to C.',
      'Tune the first string to D.',
      'Put the capo at the second fret.',
      "Tune the fifth string to G. Raise the fifth string two frets' worth: G to A (or use its spike).",
    ]);
  });
});

describe('a caution', () => {
  const raised = (frets: number): NeckSetup => ({ ...neck('G'), tuning: [67, 50, 55, 59, 62 + frets] });

  it('is said when a string would lie more than three frets above its usual pitch', () => {
    expect(retuning(neck('G'), raised(3)).cautions).toEqual([]);
    expect(retuning(neck('G'), raised(4)).cautions).toEqual([
      "The first string would lie four frets' worth above its usual D and may break: turn it slowly, with your face " +
        'away from it, or tune lower and use the capo.',
    ]);
    expect(retuning(null, raised(4)).cautions).toHaveLength(1);
  });

  it('is not said of any common tuning, and not of a banjo that is there already', () => {
    for (const { called } of COMMON_TUNINGS) expect(retuning(neck('G'), neck(called)).cautions).toEqual([]);
    expect(retuning(raised(5), raised(5)).cautions).toEqual([]);
  });
});

/** Does what the steps say. */
function followed(from: NeckSetup, steps: readonly RetuneStep[]): NeckSetup {
  let { tuning, capo, spike } = from;
  const turn = (string: StringNumber, by: number) => {
    tuning = tuning.map((pitch, index) => (index === 5 - string ? pitch + by : pitch)) as unknown as Tuning;
  };
  for (const step of steps) {
    if (step.kind === 'capo-off') capo = 0;
    else if (step.kind === 'capo') capo = step.fret;
    else if (step.kind === 'spike-off') spike = 0;
    else turn(step.kind === 'string' ? step.string : 5, step.change ?? NaN);
  }
  return { tuning, capo, spike };
}

const anyNeck = fc.record({
  tuning: fc.tuple(...[67, 50, 55, 59, 62].map((usual) => fc.integer({ min: usual - 4, max: usual + 4 }))),
  capo: fc.integer({ min: 0, max: 5 }),
  spike: fc.integer({ min: 0, max: 5 }),
}) as unknown as fc.Arbitrary<NeckSetup>;

it('from any setup to any other, the steps end with every string sounding as wanted, lowered before raised', () => {
  fc.assert(
    fc.property(anyNeck, anyNeck, (from, to) => {
      const { steps } = retuning(from, to);
      const reached = followed(from, steps);
      for (const string of [1, 2, 3, 4, 5] as const)
        expect(soundingPitch(reached, string, 0)).toBe(soundingPitch(to, string, 0));
      const turns = steps.flatMap((step) => (step.kind === 'string' ? [Math.sign(step.change ?? 0)] : []));
      expect(turns).toEqual(turns.toSorted());
      expect(turns).not.toContain(0);
      const capoOff = steps.findIndex(({ kind }) => kind === 'capo-off');
      if (from.capo > 0 && turns.length > 0) expect(capoOff).toBe(0);
    }),
  );
});
