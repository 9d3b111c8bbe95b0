/** All lengths are in CSS pixels; y runs downwards from the top of the drawing. */
export interface Box {
  x: number;
  y: number;
  width: number;
  height: number;
}

export interface TabText {
  x: number;
  y: number;
  text: string;
}

export interface TabNote extends TabText {
  plate: Box;
}

/** A word over a plate that stands for covered or missing tab. */
export interface Cover extends TabText {
  size: number;
  plate: Box;
}

/** What is drawn of the music on one line: path data by the way in which it is painted, and texts by what they say. */
export interface TabInk {
  /** Thin strokes: stems, ledger lines, sharps, the brackets of triplets, rests. */
  strokes: string;
  /** Filled: beams, heads, dots. */
  solid: string;
  /** Ties, and the arcs of hammer-ons, pull-offs and slides. */
  arcs: string;
  /** Arrows. */
  brushes: string;
  /** Behind the fret numbers. */
  plates: string;
  notes: TabNote[];
  fingers: TabText[];
  /** Letters of techniques and accents, over the strings. */
  marks: TabText[];
  triplets: TabText[];
}

export function emptyInk(): TabInk {
  return {
    ...{ strokes: '', solid: '', arcs: '', brushes: '', plates: '' },
    ...{ notes: [], fingers: [], marks: [], triplets: [] },
  };
}

/** A coordinate in path data, to a tenth of a pixel. */
export function px(length: number): string {
  return String(Math.round(length * 10) / 10);
}

export function boxPath({ x, y, width, height }: Box): string {
  return `M${px(x)} ${px(y)}h${px(width)}v${px(height)}h${px(-width)}z`;
}

export function discPath(x: number, y: number, radius: number): string {
  const r = px(radius);
  const across = px(2 * radius);
  return `M${px(x - radius)} ${px(y)}a${r} ${r} 0 1 1 ${across} 0a${r} ${r} 0 1 1 -${across} 0z`;
}

/** A bow between two places of one height; `rise` is how far its middle lies above them, or below when negative. */
export function arcPath(from: number, to: number, y: number, rise: number): string {
  return `M${px(from)} ${px(y)}q${px((to - from) / 2)} ${px(-2 * rise)} ${px(to - from)} 0`;
}
