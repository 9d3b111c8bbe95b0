import { serveApp } from '../../../.house/serve.js';
import { BIG } from '../big-book';
import { builtApp } from '../built-app';
import { type Figure, median } from '../figure';
import { builtScalePage, ScaleBook, storeUrl } from '../scale-book';
import { measureBook, type Scale } from '../scale-measure';

/** DESIGN section 7, in as many sittings as such a learner would have. */
const TWENTY_YEARS = { ...BIG, sittings: 10_000 };
const TEN_TUNES = { tunes: 10, sittings: 200, passes: 20_000, years: 0.4 };

interface Line {
  figure: string;
  unit: string;
  target?: number;
  of: (scale: Scale) => readonly number[];
  /** ms that bare IndexedDB takes for what is read or written. */
  bare?: (scale: Scale) => number;
}

const AT_4X = 'ms at 4x CPU';

const LINES: readonly Line[] = [
  {
    ...{ figure: 'scale-today', unit: `${AT_4X}, browser just started`, target: 1000 },
    of: ({ slowStarts }) => slowStarts.map(({ usableMs }) => usableMs),
    bare: ({ bare }) => bare.start,
  },
  {
    ...{
      figure: 'scale-planned',
      unit: 'ms, browser just started, until the plan is of the log as it stands',
    },
    ...{ target: 1000, of: ({ starts }) => starts.map(({ plannedMs }) => plannedMs) },
    bare: ({ bare }) => bare.start,
  },
  {
    ...{ figure: 'scale-opened', unit: 'ms until the desk has read tunes and fold, and goes on from it' },
    of: ({ starts }) => starts.map(({ openMs }) => openMs),
    bare: ({ bare }) => bare.fold,
  },
  ...screen('tunes', "from touch to every tune's state in sight", ({ tunesMs }) => tunesMs, {
    bare: ({ bare }) => bare.tunes,
  }),
  ...screen('tune', 'from touch to the board and its dock', ({ tuneMs }) => tuneMs, {
    target: 300,
    bare: ({ bare }) => bare.tune,
  }),
  ...screen('progress', 'from touch to the drawn chart', ({ progressMs }) => progressMs, {
    target: 1000,
    bare: ({ bare }) => bare.start,
  }),
  {
    ...{ figure: 'scale-longest-task', unit: `${AT_4X}, of all those screens after the start` },
    of: ({ slowStarts }) => slowStarts.map(({ longestMs }) => longestMs),
  },
  {
    ...{ figure: 'scale-plan', unit: 'ms, asked and answered', target: 50 },
    of: ({ starts }) => starts.map(({ planMs }) => planMs),
  },
  {
    ...{
      figure: 'scale-rebuilt',
      unit: 'ms, the whole log read and folded in the worker',
      target: 5000,
    },
    of: ({ rebuilds }) => rebuilds.map(({ foldMs }) => foldMs),
    bare: ({ bare }) => bare.log,
  },
  {
    ...{ figure: 'scale-today-rebuilding', unit: `${AT_4X}, while that goes on`, target: 1000 },
    of: ({ rebuilds }) => rebuilds.map(({ usableMs }) => usableMs),
  },
  {
    ...{ figure: 'scale-longest-task-rebuilding', unit: `${AT_4X}, while that goes on` },
    of: ({ rebuilds }) => rebuilds.map(({ longestMs }) => longestMs),
  },
  {
    ...{ figure: 'scale-pass-written', unit: 'ms in both copies, 95th percentile', target: 20 },
    of: ({ written }) => [percentile(written.passes, 0.95)],
    bare: ({ bareWritten }) => percentile(bareWritten.rows, 0.95),
  },
  {
    ...{ figure: 'scale-pass-written-median', unit: 'ms in both copies' },
    of: ({ written }) => written.passes,
    bare: ({ bareWritten }) => median(bareWritten.rows),
  },
  {
    ...{ figure: 'scale-sealed', unit: 'ms, a sitting of 150 passes, in both copies' },
    of: ({ written }) => [written.sealMs],
    bare: ({ bareWritten }) => bareWritten.sealMs,
  },
  {
    ...{ figure: 'scale-memory', unit: 'MB that the page and its workers have for themselves', target: 300 },
    of: ({ starts }) => starts.flatMap(({ memoryMb }) => memoryMb ?? []),
  },
];

/** A screen on this machine's processor, and on a phone's. */
function screen(
  name: string,
  unit: string,
  of: (start: Scale['starts'][number]) => number,
  rest: Pick<Line, 'target' | 'bare'>,
): Line[] {
  return [
    { figure: `scale-${name}`, unit: `ms, ${unit}`, of: ({ starts }) => starts.map(of), ...rest },
    { figure: `scale-${name}-slowed`, unit: `${AT_4X}, ${unit}`, of: ({ slowStarts }) => slowStarts.map(of) },
  ];
}

/** Twenty years of practice in the built app, beside a book of ten tunes and beside bare IndexedDB. */
export async function* measure(): AsyncIterable<Figure> {
  const build = builtApp();
  const script = builtScalePage();
  const store = storeUrl(build);
  const server = await serveApp({ folder: build, port: 0 });
  try {
    const small = await measured(TEN_TUNES);
    const big = await measured(TWENTY_YEARS);
    for (const { figure, unit, target, of, bare } of LINES) {
      const value = median(of(big));
      if (Number.isNaN(value)) continue;
      const reference = [
        { name: 'a book of 10 tunes', value: round(median(of(small))) },
        ...(bare ? [{ name: 'bare IndexedDB', value: round(bare(big)) }] : []),
      ];
      yield { figure, value: round(value), unit, better: 'lower', ...(target && { target }), reference };
    }
  } finally {
    await server.close();
  }

  async function measured(size: typeof BIG): Promise<Scale> {
    const book = new ScaleBook(server.url, script);
    try {
      return await measureBook(book, size, store);
    } finally {
      book.remove();
    }
  }
}

const round = (value: number): number => Math.round(10 * value) / 10;

function percentile(values: readonly number[], share: number): number {
  return values.toSorted((a, b) => a - b)[Math.floor(share * values.length)] ?? NaN;
}
