import { describe, expect, test } from 'vitest';
import {
  checkBook,
  checkDrill,
  checkLogEntry,
  checkSealedSitting,
  checkSettingRow,
  checkSitting,
  checkTune,
} from '../../../src/lib/core/book/schema';
import { isId } from '../../../src/lib/core/book/id';
import { emptyParts, makeTune } from '../../../src/lib/core/tune/make-tune';
import { COMMON_TUNINGS } from '../../../src/lib/core/tune/tuning';
import { drill, EVENING, idOf, pass, SMALL_BOOK, START, WINTER_TUNE } from './made-up-books';

const damageOf = (checked: { ok: boolean; damage?: string[] }): string[] => checked.damage ?? [];

describe('whole records pass', () => {
  test('the made-up book, and each kind by itself', () => {
    expect(checkBook(SMALL_BOOK)).toEqual({ ok: true, value: SMALL_BOOK });
    const { endedAt: _endedAt, drills: _drills, log: _log, ...sitting } = EVENING;
    expect(checkSitting(sitting)).toMatchObject({ ok: true });
    expect(checkDrill(drill(1, 2))).toMatchObject({ ok: true });
    expect(checkLogEntry(pass(1, 2))).toMatchObject({ ok: true });
  });

  test('what makeTune makes, in every common tuning', () => {
    let number = 0;
    for (const { tuning } of COMMON_TUNINGS) {
      const draft = {
        ...{ title: 'Nine Geese', tuning, capo: 0, spike: 0, key: 'G', meter: '4/4' as const },
        ...{ goalTempo: 100, form: 'AABC', parts: emptyParts('ABC', [8, 9, 7], '4/4'), pickup: null },
      };
      const tune = makeTune(draft, () => idOf(number++), { at: START, offsetMin: 0 });
      expect(checkTune(tune)).toMatchObject({ ok: true });
    }
  });

  // RFC 9562 appendix A.6 (value from memory)
  test('the UUIDv7 that its standard gives as an example', () => {
    expect(isId('017f22e2-79b0-7cc3-98c4-dc0c0c07398f')).toBe(true);
    expect(isId('017f22e2-79b0-4cc3-98c4-dc0c0c07398f')).toBe(false);
    expect(isId('017F22E2-79B0-7CC3-98C4-DC0C0C07398F')).toBe(false);
  });
});

describe('damage is named by place and reason', () => {
  const first = WINTER_TUNE.figures[0]!;
  const strike = first.strikes![0]!;
  const withStrikes = (...strikes: object[]) => ({ ...WINTER_TUNE, figures: [{ ...first, strikes }] });
  const tuneCases: [string, object, string][] = [
    ['tempo', { goalTempo: 9000 }, 'goal tempo: 9000 is outside 20 to 300'],
    ['a number that is none', { goalTempo: Number.NaN }, 'goal tempo: null is not a number'],
    ['empty title', { title: '' }, 'title: has 0 characters, not 1 to 200'],
    ['long title', { title: 'x'.repeat(201) }, 'title: has 201 characters, not 1 to 200'],
    ['title of another kind', { title: 7 }, 'title: 7 is not text'],
    ['capo', { capo: 13 }, 'capo: 13 is outside 0 to 12'],
    ['half a capo', { capo: 1.5 }, 'capo: 1.5 is not a whole number'],
    ['pitch', { tuning: [67, 50, 55, 59, 99] }, 'tuning, 5th: 99 is outside 24 to 96'],
    ['four strings', { tuning: [67, 50, 55, 59] }, 'tuning, 5th: is missing'],
    ['meter', { meter: '5/4' }, 'meter: "5/4" is not one of 2/2, 2/4, 4/4, 3/4, 6/8, 9/8'],
    ['form', { form: 'AABC' }, 'form: AABC names part C, which the tune does not have'],
    ['form of other letters', { form: 'aa' }, 'form: is not made of capital letters'],
    [
      'no measures',
      { parts: [{ name: 'A', measures: [] }] },
      'parts, 1st, measures: has 0 items, not 1 to 400',
    ],
    [
      'a lost figure',
      { figures: [first] },
      `figures: figure ${idOf(21)} is named by a measure, and is not there`,
    ],
    ['time', { editedAt: -5 }, 'edited at: -5 is not a time in milliseconds between the years 1970 and 2100'],
    ['id', { id: '7' }, 'id: "7" is not a UUIDv7'],
    ['stranger', { colour: 'blue' }, 'colour: is not a field of this record'],
    ['missing', { key: undefined }, 'key: is missing'],
    ['pickup', { pickup: { beats: 2, strikes: null } }, 'pickup, beats: 2 is a measure or more'],
    ['origin', { origin: 'them' }, 'origin: "them" is not one of own, demo'],
    [
      'first layer',
      { layers: [WINTER_TUNE.layers[1]] },
      'layers, 1st, changes: the first layer is the measures as they stand, and changes none',
    ],
  ];
  // names that an object has of itself, which JSON may hold all the same
  test.each(['__proto__', 'constructor', 'prototype'])('a layer that changes %s', (key) => {
    const layers = [
      WINTER_TUNE.layers[0],
      { id: idOf(31), name: 'x', changes: Object.fromEntries([[key, 'x']]) },
    ];
    expect(damageOf(checkTune({ ...WINTER_TUNE, layers }))).toEqual([
      'layers, 2nd, changes: holds something other than values by their id',
    ]);
  });

  test.each(tuneCases)('%s', (_name, patch, sentence) => {
    expect(damageOf(checkTune({ ...WINTER_TUNE, ...patch }))).toContain(sentence);
  });

  const place = 'figures, 1st, strikes';
  const strikeCases: [string, object[], string][] = [
    [
      'outside the measure',
      [{ ...strike, onset: [1, 1] }],
      'figures, 1: a note at 1/1 is outside the measure',
    ],
    [
      'not in lowest terms',
      [{ ...strike, onset: [2, 4] }],
      `${place}, 1st, onset: [2,4] is not a fraction in lowest terms`,
    ],
    [
      'over nothing',
      [{ ...strike, onset: [1, 0] }],
      `${place}, 1st, onset: [1,0] is not a fraction in lowest terms`,
    ],
    [
      'zero unreduced',
      [{ ...strike, onset: [0, 2] }],
      `${place}, 1st, onset: [0,2] is not a fraction in lowest terms`,
    ],
    ['before', [{ ...strike, onset: [-1, 4] }], `${place}, 1st, onset: [-1,4] is before the measure`],
    ['no length', [{ ...strike, duration: [0, 1] }], `${place}, 1st, duration: [0,1] is not a length`],
    ['no such string', [{ ...strike, string: 6 }], `${place}, 1st, string: 6 is not one of 1, 2, 3, 4, 5`],
    [
      'out of order',
      [{ ...strike, onset: [1, 2] }, strike],
      `${place}: are not in the order of time, then of string`,
    ],
  ];
  test.each(strikeCases)('a strike %s', (_name, strikes, sentence) => {
    expect(damageOf(checkTune(withStrikes(...strikes)))).toContain(sentence);
  });

  test('of a sitting: strays and orphans', () => {
    const cases: [object, string][] = [
      [{ drills: [drill(101, 7)] }, `drills: drill ${idOf(101)} belongs to another sitting`],
      [
        { drills: [], log: [pass(110, 101)] },
        `log: record ${idOf(110)} names drill ${idOf(101)}, which is not there`,
      ],
      [{ log: EVENING.log.slice(2) }, `log: correction ${idOf(112)} is of a pass that is not there`],
      [{ log: [EVENING.log[0], EVENING.log[0]] }, `record ${idOf(110)} stands twice`],
      [{ offsetMin: 900 }, 'offset min: 900 is outside -720 to 840'],
      [{ hands: 'cold' }, 'hands: "cold" is not one of fresh, stiff, tired, sore'],
      [
        { log: [{ ...EVENING.log[0], outcome: 'fine' }] },
        'log, 1st, outcome: "fine" is not one of clean, stumbled, broke down',
      ],
      [
        { log: [{ ...EVENING.log[0], kind: 'song' }] },
        'log, 1st, kind: "song" is not one of pass, correction',
      ],
    ];
    for (const [patch, sentence] of cases) {
      expect(damageOf(checkSealedSitting({ ...EVENING, ...patch }))).toContain(sentence);
    }
  });

  test('of a setting', () => {
    expect(damageOf(checkSettingRow({ key: 'breath', value: '3', editedAt: START }))).toEqual([
      'value: "3" is not one of 1, 2, 4, wait',
    ]);
    expect(damageOf(checkSettingRow({ key: '__proto__', value: '3', editedAt: START }))[0]).toMatch(
      /^key: "__proto__" is not one of dayStartsAtHour/,
    );
  });

  test('of a book: the record is counted, and the sentences end at twenty', () => {
    const bad = { ...WINTER_TUNE, goalTempo: 9000 };
    expect(damageOf(checkBook({ ...SMALL_BOOK, tunes: [WINTER_TUNE, WINTER_TUNE, bad] }))).toEqual([
      'tunes, 3rd record, goal tempo: 9000 is outside 20 to 300',
    ]);
    expect(damageOf(checkBook({ ...SMALL_BOOK, tunes: [WINTER_TUNE, WINTER_TUNE] }))).toEqual([
      `tunes: record ${WINTER_TUNE.id} stands twice`,
    ]);
    const many = damageOf(checkBook({ ...SMALL_BOOK, tunes: Array.from({ length: 45 }, () => bad) }));
    expect(many).toHaveLength(21);
    expect(many.at(-1)).toBe('and 25 more');
    expect(damageOf(checkBook(null))).toEqual(['the book is not a record']);
    expect(damageOf(checkBook({ tunes: {} }))).toContain('tunes: is not a list');
  });
});
