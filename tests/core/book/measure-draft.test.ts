import { describe, expect, it } from 'vitest';
import { readBareWriting, readMeasureDraft } from '../../../src/lib/core/book/measure-draft';

const WRITING = {
  beats: 2.5,
  strikes: [{ onset: [0, 1], duration: [1, 8], string: 1, fret: 2, technique: 'strike' }],
  labels: [],
};

describe('a draft of a measure', () => {
  it('is read as it was kept', () => {
    for (const draft of [
      { writing: WRITING, base: 'a', asides: [] },
      { writing: null, base: null, asides: [WRITING, WRITING] },
    ]) {
      expect(readMeasureDraft(structuredClone(draft))).toEqual(draft);
    }
  });

  it('is read as the first versions kept it, with one writing aside or none', () => {
    expect(readMeasureDraft({ writing: WRITING, base: 'a' })).toEqual({
      ...{ writing: WRITING, base: 'a', asides: [] },
    });
    expect(readMeasureDraft({ writing: null, base: null, aside: WRITING })).toEqual({
      ...{ writing: null, base: null, asides: [WRITING] },
    });
  });

  it('is nothing when it is not one', () => {
    for (const kept of [
      null,
      'draft',
      WRITING,
      { writing: WRITING },
      { writing: { ...WRITING, beats: 2.3 }, base: null },
      { writing: { ...WRITING, strikes: [{ fret: 99 }] }, base: null },
    ]) {
      expect(readMeasureDraft(kept)).toBeNull();
    }
  });

  it('was the writing alone in the first versions', () => {
    expect(readBareWriting(WRITING)).toEqual(WRITING);
    expect(readBareWriting({ writing: WRITING, base: null })).toBeNull();
  });
});
