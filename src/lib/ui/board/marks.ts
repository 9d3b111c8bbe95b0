/** The joiner's marks on a 7 x 10 field, in the order in which they are given out (LOOK.md section 2). */
const STROKES = [
  { name: 'I', lines: [[3, 0, 3, 10]] },
  {
    name: 'II',
    lines: [
      [1, 0, 1, 10],
      [6, 0, 6, 10],
    ],
  },
  {
    name: 'III',
    lines: [
      [0, 0, 0, 10],
      [3.5, 0, 3.5, 10],
      [7, 0, 7, 10],
    ],
  },
  {
    name: 'V',
    lines: [
      [0, 0, 3.5, 10],
      [3.5, 10, 7, 0],
    ],
  },
  {
    name: 'Λ',
    lines: [
      [0, 10, 3.5, 0],
      [3.5, 0, 7, 10],
    ],
  },
  {
    name: 'X',
    lines: [
      [0, 0, 7, 10],
      [7, 0, 0, 10],
    ],
  },
  {
    name: 'T',
    lines: [
      [0, 0, 7, 0],
      [3.5, 0, 3.5, 10],
    ],
  },
] as const;

/** The marks of the n-th shared figure: one stroke group, then pairs of them, then pairs counted on. */
function groupsOf(index: number): (typeof STROKES)[number][] {
  const last = STROKES[index % STROKES.length] ?? STROKES[0];
  const turn = Math.floor(index / STROKES.length);
  if (turn === 0) return [last];
  return [STROKES[(turn - 1) % STROKES.length] ?? STROKES[0], last];
}

/** An SVG path on a 16 x 14 field, set against its right edge. */
export function markPath(index: number): string {
  const groups = groupsOf(index);
  return groups
    .flatMap(({ lines }, place) => {
      const left = groups.length === 1 ? 7 : place * 9;
      return lines.map(([x1, y1, x2, y2]) => `M${left + x1} ${y1 + 2}L${left + x2} ${y2 + 2}`);
    })
    .join('');
}

/** The mark in letters, for the ear. */
export function markName(index: number): string {
  return groupsOf(index)
    .map(({ name }) => name)
    .join(' ');
}
