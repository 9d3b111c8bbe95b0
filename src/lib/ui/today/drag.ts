/** Where a dragged line would land. */
export interface Drag {
  key: string;
  /** Pixels that the line has been carried down. */
  carried: number;
  /** The place in the list that it would take, from 0. */
  place: number;
  /** Of the line itself, in pixels. */
  height: number;
}

/** A line as it lay when the drag began: its edges in page pixels. */
export interface Row {
  top: number;
  bottom: number;
}

/**
 * The place that a line takes when its own middle is carried to `middle` (page pixels): it stays within `from` to `to`,
 * both included, and passes a neighbour once its middle is past that neighbour's.
 */
export function placeAt(
  rows: readonly Row[],
  own: number,
  middle: number,
  [from, to]: readonly [from: number, to: number],
): number {
  let place = from;
  for (let index = from; index <= to; index++) {
    const row = rows[index];
    if (index !== own && row && (row.top + row.bottom) / 2 < middle) place += 1;
  }
  return Math.min(place, to);
}

/** The run of neighbours with the same tuning that an item can be moved within: first and last place. */
export function movableWithin(tunings: readonly string[], place: number): [from: number, to: number] {
  let [from, to] = [place, place];
  while (from > 0 && tunings[from - 1] === tunings[place]) from -= 1;
  while (to < tunings.length - 1 && tunings[to + 1] === tunings[place]) to += 1;
  return [from, to];
}
