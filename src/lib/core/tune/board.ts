import { meterShape } from '../rhythm/meter';
import { passageKey, type Passage } from './passage';
import { partPlaces, playedPlaces, type Place } from './places';
import type { Id, Tune } from './tune';

/** A measure on the board. */
export interface BoardCell extends Place {
  /** Width in half-columns: 2 for a measure of the meter's own length. */
  span: number;
  /** Stands out past the block of its line: the fifth in a line of four. */
  over: boolean;
  /** Which joiner's mark its figure wears, from 0; `null` when the figure is met once. */
  mark: number | null;
  /** To the next measure of the part; `null` at the part's end. */
  seam: Extract<Passage, { kind: 'seam' }> | null;
}

export interface BoardPart {
  name: string;
  lines: BoardCell[][];
  /** Half-columns across: room for the block and one measure that stands out, or for the widest line. */
  columns: number;
  measures: number;
  figures: number;
  /** From the part's last measure to what the form plays after it, each once. */
  turns: { to: string; seam: Extract<Passage, { kind: 'seam' }> }[];
}

/**
 * The measure board of a tune in one layer: each part in lines of `perLine` measures, a single measure left over
 * standing out at the end of the last line (LOOK.md section 2).
 */
export function boardParts(tune: Tune, layerId: Id, perLine: number): BoardPart[] {
  const marks = sharedMarks(tune, layerId);
  return tune.parts.map(({ name }) => {
    const cells = boardCells(tune, partPlaces(tune, layerId, name), marks);
    const lines = boardLines(cells, perLine);
    return {
      name,
      lines,
      columns: Math.max(2 * perLine + 2, ...lines.map(lineWidth)),
      measures: cells.length,
      figures: new Set(cells.map(({ figure }) => figure.id)).size,
      turns: turnsAfter(tune, layerId, name),
    };
  });
}

/** The figures that stand in more than one measure, numbered from 0 in board order. */
export function sharedMarks(tune: Tune, layerId: Id): Map<Id, number> {
  const counts = new Map<Id, number>();
  for (const { name } of tune.parts) {
    for (const { figure } of partPlaces(tune, layerId, name))
      counts.set(figure.id, (counts.get(figure.id) ?? 0) + 1);
  }
  const shared = [...counts].filter(([, count]) => count > 1);
  return new Map(shared.map(([figureId], index) => [figureId, index]));
}

function boardCells(tune: Tune, places: Place[], marks: ReadonlyMap<Id, number>): BoardCell[] {
  const { beats } = meterShape(tune.meter);
  return places.map((place, index) => {
    const next = places[index + 1];
    return {
      ...place,
      span: Math.min(8, Math.max(1, Math.round((2 * place.figure.beats) / beats))),
      over: false,
      mark: marks.get(place.figure.id) ?? null,
      seam: next
        ? { kind: 'seam', tuneId: tune.id, fromFigureId: place.figure.id, toFigureId: next.figure.id }
        : null,
    };
  });
}

function boardLines(cells: readonly BoardCell[], perLine: number): BoardCell[][] {
  const halfColumns = 2 * perLine + 2;
  const lines: BoardCell[][] = [];
  let line: BoardCell[] = [];
  let used = 0;
  for (const [index, cell] of cells.entries()) {
    const isLeftOver = line.length === perLine && index === cells.length - 1 && cell.span <= 4;
    const isFull = line.length >= perLine || used + cell.span > halfColumns;
    if (isFull && !isLeftOver) {
      lines.push(line);
      line = [];
      used = 0;
    }
    line.push({ ...cell, over: isLeftOver });
    used += cell.span;
  }
  if (line.length > 0) lines.push(line);
  return lines;
}

function lineWidth(line: readonly BoardCell[]): number {
  return line.reduce((sum, { span }) => sum + span, 0);
}

function turnsAfter(tune: Tune, layerId: Id, part: string): BoardPart['turns'] {
  const turns = new Map<string, BoardPart['turns'][number]>();
  const played = playedPlaces(tune, layerId);
  const last = partPlaces(tune, layerId, part).at(-1);
  for (const [index, place] of played.entries()) {
    const next = played[index + 1];
    if (!next || next.index !== 0 || place.part !== part || place.measure.id !== last?.measure.id) continue;
    const seam = {
      kind: 'seam' as const,
      tuneId: tune.id,
      fromFigureId: place.figure.id,
      toFigureId: next.figure.id,
    };
    turns.set(next.part + passageKey(seam), { to: next.part, seam });
  }
  return [...turns.values()];
}
