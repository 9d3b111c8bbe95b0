/** One measured figure, as `npm run bench` prints it but for `met`. */
export interface Figure {
  /** kebab-case, unique in all groups */
  figure: string;
  value: number;
  unit: string;
  better: 'lower' | 'higher';
  /** DESIGN section 7; left out where none was set */
  target?: number;
  /** The same figure of something else, measured in the same run. */
  reference?: Reference | readonly Reference[];
}

export interface Reference {
  name: string;
  value: number;
}

/** What a file in `groups/` exports as `measure`. */
export type Measure = () => AsyncIterable<Figure>;

/** One JSON line; `met` is left out where there is no target. */
export function toLine(measured: Figure): string {
  const { figure, value, unit, better, target, reference } = measured;
  const met = target === undefined ? undefined : better === 'lower' ? value <= target : value >= target;
  return JSON.stringify({ figure, value, unit, better, target, met, reference });
}

export const median = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? NaN;
