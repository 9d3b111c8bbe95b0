import fc from 'fast-check';
import type { Book } from '../../../src/lib/core/book/book';
import { settingRow } from '../../../src/lib/core/book/settings';
import type { Drill, LogEntry, SealedSitting } from '../../../src/lib/core/practice/records';
import { fitFigures } from '../../../src/lib/core/tune/fit-figures';
import type { Figure, Layer, Measure, Tune } from '../../../src/lib/core/tune/tune';

/** 2026-03-01T18:00:00Z. */
export const START = 1_772_388_000_000;

/** The UUIDv7 of a number: ids in the order of their numbers. */
export function idOf(number: number): string {
  return `0195${number.toString(16).padStart(4, '0')}-0000-7000-8000-000000000000`;
}

export const WINTER_TUNE: Tune = {
  id: idOf(1),
  title: 'The Miller’s Late Supper',
  tuning: [67, 50, 55, 60, 62],
  capo: 2,
  spike: 2,
  key: 'A modal',
  meter: '2/2',
  goalTempo: 104,
  form: 'AABB',
  parts: [
    { name: 'A', measures: [measure(10, 20), measure(11, 21)] },
    { name: 'B', measures: [measure(12, 22), measure(13, 21)] },
  ],
  figures: [
    {
      ...figure(20),
      strikes: [
        { onset: [0, 1], duration: [1, 4], string: 3, fret: 2, technique: 'hammer-on' },
        { onset: [1, 2], duration: [1, 8], string: 1, fret: 0, technique: 'brush' },
        { onset: [7, 8], duration: [1, 8], string: 5, fret: 0, technique: 'drone' },
      ],
    },
    figure(21),
    { ...figure(22), beats: 2.5, strikes: [] },
  ],
  layers: [
    { id: idOf(30), name: 'plain', changes: {} },
    { id: idOf(31), name: 'drop-thumb', changes: { [idOf(10)]: idOf(22) } },
  ],
  pickup: {
    beats: 0.5,
    strikes: [{ onset: [0, 1], duration: [1, 8], string: 2, fret: 1, technique: 'strike' }],
  },
  origin: 'own',
  added: { at: START, offsetMin: 60 },
  editedAt: START,
  archived: false,
  deletedAt: null,
};

/** With what version 2 of a backup brought: a melody, labels, fingers, weights and a tie. */
export const SUNG_TUNE: Tune = {
  ...WINTER_TUNE,
  id: idOf(2),
  title: 'Rain on the Mill Wheel',
  form: 'A',
  parts: [
    {
      name: 'A',
      measures: [
        { ...measure(14, 24), labels: [{ onset: [0, 1], kind: 'chord', text: 'Am' }] },
        { ...measure(15, 25), labels: [{ onset: [1, 4], kind: 'word', text: 'rain' }] },
      ],
    },
  ],
  figures: [
    {
      ...figure(24),
      strikes: null,
      melody: [
        { onset: [0, 1], duration: [1, 2], pitch: 69 },
        { onset: [1, 2], duration: [1, 2], pitch: 69, tied: true },
      ],
    },
    {
      ...figure(25),
      strikes: [
        {
          ...{ onset: [0, 1], duration: [1, 4], string: 3, fret: 2, technique: 'strike' },
          ...{ finger: 2, weight: 'accent' },
        },
      ],
    },
  ],
  layers: [{ id: idOf(30), name: 'plain', changes: {} }],
  pickup: null,
};

export const EVENING: SealedSitting = {
  id: idOf(100),
  at: START + 3_600_000,
  offsetMin: 60,
  minutes: 20,
  tuning: [67, 50, 55, 60, 62],
  hands: 'fresh',
  note: 'Slow, and even for once.',
  origin: 'own',
  endedAt: START + 4_800_000,
  drills: [drill(101, 100)],
  log: [
    pass(110, 101, 66, 'clean'),
    pass(111, 101, 68, 'stumbled'),
    {
      kind: 'correction',
      id: idOf(112),
      drillId: idOf(101),
      passId: idOf(111),
      outcome: 'clean',
      ...moment(112),
    },
  ],
};

export const SMALL_BOOK: Book = {
  tunes: [WINTER_TUNE],
  sittings: [EVENING],
  settings: [settingRow('minutes', 25, START), settingRow('breath', 'wait', START)],
};

/** What `tests/fixtures/books/version-N.json` holds. */
export const OLDER_BOOKS: readonly { version: number; book: Book }[] = [
  { version: 1, book: SMALL_BOOK },
  { version: 2, book: { ...SMALL_BOOK, tunes: [WINTER_TUNE, SUNG_TUNE] } },
];

export function figure(number: number, editedAt = START): Figure {
  return { id: idOf(number), beats: 2, strikes: null, editedAt };
}

export function measure(number: number, figureNumber: number, editedAt = START): Measure {
  return { id: idOf(number), figureId: idOf(figureNumber), editedAt };
}

function moment(number: number) {
  return { at: START + 3_600_000 + number * 1000, offsetMin: 60 };
}

export function drill(number: number, sittingNumber: number): Drill {
  return {
    id: idOf(number),
    sittingId: idOf(sittingNumber),
    passage: { kind: 'figure', tuneId: WINTER_TUNE.id, figureId: idOf(20) },
    climb: 'steady',
    ...moment(number),
  };
}

export function pass(
  number: number,
  drillNumber: number,
  tempo = 66,
  outcome: 'clean' | 'stumbled' | 'broke down' = 'clean',
): LogEntry {
  const about = { tempo, outcome, fromMemory: false, missAt: null };
  return { kind: 'pass', id: idOf(number), drillId: idOf(drillNumber), ...about, ...moment(number) };
}

const someTime = fc.integer({ min: 0, max: 6 }).map((step) => START + step * 60_000);
const someIds = (min: number, max: number) =>
  fc.uniqueArray(fc.integer({ min, max }), { minLength: 1, maxLength: max - min + 1 });

const withoutUndefined = <T extends object>(record: T) =>
  Object.fromEntries(Object.entries(record).filter(([, value]) => value !== undefined));

const someMelody = fc.constantFrom(undefined, [{ onset: [0, 1], duration: [1, 4], pitch: 62 }]);
const someLabels = fc.constantFrom(undefined, [{ onset: [0, 1], kind: 'chord', text: 'G' }], []);

const someFigure = (number: number) =>
  fc
    .record({
      id: fc.constant(idOf(number)),
      beats: fc.constantFrom(1.5, 2, 3, 4),
      strikes: fc.constantFrom(
        null,
        [],
        [{ onset: [1, 4], duration: [1, 8], string: 2, fret: 3, technique: 'slide' }],
        // within two half-note beats, and beyond three quarter-note ones
        [{ onset: [3, 4], duration: [1, 8], string: 2, fret: 3, technique: 'slide' }],
      ),
      ...{ melody: someMelody, editedAt: someTime },
    })
    .map(withoutUndefined) as fc.Arbitrary<Figure>;

const someMeasure = (number: number, figures: readonly number[]) =>
  fc
    .record({
      id: fc.constant(idOf(number)),
      figureId: fc.constantFrom(...figures).map(idOf),
      ...{ labels: someLabels, editedAt: someTime },
    })
    .map(withoutUndefined) as fc.Arbitrary<Measure>;

/** A later layer as one device may have it: on the board or taken off, its changes with their times or without. */
const someLayer = (number: number, board: readonly number[], figures: readonly number[]) =>
  fc
    .record({
      name: fc.constantFrom('drop-thumb', 'slides'),
      changes: fc.dictionary(fc.constantFrom(...board).map(idOf), fc.constantFrom(...figures).map(idOf)),
      changedAt: fc.option(fc.dictionary(fc.constantFrom(...board).map(idOf), someTime), { nil: undefined }),
      editedAt: fc.option(someTime, { nil: undefined }),
      isOff: fc.boolean(),
    })
    .map(({ isOff, ...layer }) => ({
      isOff,
      layer: withoutUndefined({ id: idOf(number), ...layer }) as Layer,
    }));

/** A tune as one device may have it: few ids and few times, so that copies meet and clash. */
const someTune: fc.Arbitrary<Tune> = fc
  .record({
    id: fc.integer({ min: 1, max: 2 }).map(idOf),
    title: fc.constantFrom('Rain on the Sill', 'Rain on the Sills'),
    figures: someIds(20, 24),
    board: someIds(10, 14),
    shelved: fc.integer({ min: 0, max: 2 }),
    hasEmptyShelves: fc.boolean(),
    meter: fc.constantFrom('2/2' as const, '4/4' as const, '6/8' as const),
    editedAt: someTime,
    deletedAt: fc.option(someTime),
    archived: fc.boolean(),
  })
  .chain(({ figures, board, shelved, hasEmptyShelves, ...face }) =>
    fc.record({
      hasEmptyShelves: fc.constant(hasEmptyShelves),
      face: fc.constant(face),
      figures: fc.tuple(...figures.map(someFigure)),
      measures: fc.tuple(...board.map((number) => someMeasure(number, figures))),
      shelved: fc.constant(Math.min(shelved, board.length - 1)),
      later: fc
        .subarray([31, 32, 33])
        .chain((numbers) => fc.tuple(...numbers.map((number) => someLayer(number, board, figures)))),
    }),
  )
  .map(({ face, figures, measures, shelved, later, hasEmptyShelves }) => {
    const layerShelf = later.filter(({ isOff }) => isOff).map(({ layer }) => layer);
    const standing = later.filter(({ isOff }) => !isOff).map(({ layer }) => layer);
    const shelf = measures.slice(0, shelved);
    return fitFigures({
      ...WINTER_TUNE,
      ...face,
      form: 'A',
      layers: [{ id: idOf(30), name: 'plain', changes: {} }, ...standing],
      ...((layerShelf.length > 0 || hasEmptyShelves) && { layerShelf }),
      parts: [{ name: 'A', measures: measures.slice(shelved) }],
      figures,
      ...((shelf.length > 0 || hasEmptyShelves) && { shelf }),
    });
  });

/** Copies of one sitting may hold different passes, in whatever order the clocks gave them, and differ in those of one id. */
const someSitting: fc.Arbitrary<SealedSitting> = fc
  .record({
    number: fc.integer({ min: 0, max: 2 }),
    note: fc.constantFrom('', 'short', 'cold hands'),
    endedAt: someTime,
    passes: fc.uniqueArray(
      fc.record({
        index: fc.integer({ min: 0, max: 8 }),
        tempo: fc.constantFrom(66, 70),
        // of a clock that was a day behind
        behindMs: fc.constantFrom(0, 86_400_000),
      }),
      { selector: ({ index }) => index },
    ),
    climb: fc.constantFrom('steady' as const, 'alternating' as const),
    corrected: fc.boolean(),
  })
  .map(({ number, note, endedAt, passes, climb, corrected }) => {
    const base = 1000 + number * 100;
    const log = passes.map(({ index, tempo, behindMs }) => {
      const entry = pass(base + 10 + index, base + 1, tempo);
      return { ...entry, at: entry.at - behindMs };
    });
    const first = log[0];
    if (corrected && first) {
      const about = { drillId: first.drillId, passId: first.id, outcome: 'unmarked' as const };
      log.push({ kind: 'correction', id: idOf(base + 50), ...about, at: first.at, offsetMin: 0 });
    }
    return { ...EVENING, id: idOf(base), note, endedAt, drills: [{ ...drill(base + 1, base), climb }], log };
  });

const someSetting = fc.oneof(
  fc.tuple(fc.integer({ min: 5, max: 9 }), someTime).map(([value, at]) => settingRow('minutes', value, at)),
  fc.tuple(fc.constantFrom('1', '2', 'wait'), someTime).map(([value, at]) => settingRow('breath', value, at)),
);

export const someBook: fc.Arbitrary<Book> = fc.record({
  tunes: fc.uniqueArray(someTune, { selector: ({ id }) => id, maxLength: 2 }),
  sittings: fc.uniqueArray(someSitting, { selector: ({ id }) => id, maxLength: 3 }),
  settings: fc.uniqueArray(someSetting, { selector: ({ key }) => key, maxLength: 2 }),
});
