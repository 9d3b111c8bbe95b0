import { describe, expect, it } from 'vitest';
import { draftProblems, isForm } from '../../../src/lib/core/tune/draft-problems';
import { emptyParts } from '../../../src/lib/core/tune/make-tune';
import { readWrittenTuning } from '../../../src/lib/core/tune/written-tuning';
import { COMMON_TUNINGS, tuningName } from '../../../src/lib/core/tune/tuning';
import { sampleDraft } from './sample';

describe('what keeps a draft from being kept', () => {
  it('finds nothing wrong with a whole one', () => {
    expect(draftProblems(sampleDraft())).toEqual([]);
  });

  it.each([
    [{ title: '  ' }, 'title', 'Give the tune a title.'],
    [{ title: 'x'.repeat(201) }, 'title', 'Keep the title under 201 letters.'],
    [
      { form: 'aabb' },
      'form',
      'Write the form as the parts are played, in capital letters: AABB (up to 64).',
    ],
    [{ form: 'AABBC' }, 'form', 'The form plays part C, which has no measures.'],
    [{ form: 'AA' }, 'form', 'Part B has measures but the form never plays it.'],
    [{ goalTempo: Number.NaN }, 'goalTempo', 'Choose a goal between 20 and 300 beats a minute.'],
    [{ goalTempo: 9000 }, 'goalTempo', 'Choose a goal between 20 and 300 beats a minute.'],
    [{ pickup: { beats: 2, strikes: null } }, 'pickup', 'A pickup is shorter than a measure: under 2 beats.'],
    [{ parts: emptyParts('AABB', [0, 4], '2/4') }, 'measures', 'Part A needs 1 to 400 measures.'],
  ] as const)('says what is wrong with %o', (change, field, sentence) => {
    expect(draftProblems(sampleDraft(change))).toContainEqual({ field, sentence });
  });

  it('takes forms as players write them', () => {
    expect(['AABB', 'AABBC', 'ABACA', 'A'].every(isForm)).toBe(true);
    expect(['', 'AAbb', 'A B', 'A'.repeat(65)].some(isForm)).toBe(false);
  });
});

describe('a tuning as players write it', () => {
  it('reads every common tuning back to its pitches', () => {
    for (const { name, tuning } of COMMON_TUNINGS) expect(readWrittenTuning(name), name).toEqual(tuning);
  });

  it.each([
    ['gdgbd', 'gDGBD'],
    ['g D G B D', 'gDGBD'],
    ['g-D-G-Bb-D', 'gDGA#D'],
    ['GDGB♭D', 'gDGA#D'],
    ['f#DF#AD', 'f#DF#AD'],
  ])('reads %s', (text, name) => {
    const tuning = readWrittenTuning(text);
    expect(tuning && tuningName(tuning)).toBe(name);
  });

  it.each(['', 'gDGB', 'gDGBDE', 'hello', 'gDGB1', '#gDGBD'])('refuses %j', (text) => {
    expect(readWrittenTuning(text)).toBeNull();
  });
});
