import type { Drill, LogEntry, SealedSitting } from '../practice/records';
import { asWritten, fitFigures } from '../tune/fit-figures';
import type { Measure, Tune } from '../tune/tune';
import { byId, sortBook, type Book } from './book';
import { mergeLayers } from './merge-layers';
import { later, mergeLists, mergeRuns } from './merge-lists';

/**
 * Both books in one, in the order of `sortBook`. Whatever the order of merging, and however often, the outcome is the
 * same (commutative, associative, idempotent), and no pass is dropped:
 * - a tune: its own fields, with the layout of its parts, from the later edit or deletion; every figure and every
 *   measure from its own later edit, as it was written and fitted to the chosen meter (see `fitFigures`); measures that
 *   the chosen layout lacks go to the shelf; every layer of both, each measure that it changes by its own later change
 *   (see `mergeLayers`);
 * - a sitting: its own fields from the copy that ended later; all drills and log entries of both;
 * - a setting: the later edit.
 * Equal times are decided by the greater canonical JSON.
 */
export function mergeBooks(a: Book, b: Book): Book {
  return sortBook({
    tunes: mergeLists(a.tunes, b.tunes, ({ id }) => id, mergeTunes),
    sittings: mergeLists(a.sittings, b.sittings, ({ id }) => id, mergeSittings),
    settings: mergeLists(a.settings, b.settings, ({ key }) => key, laterEdit),
  });
}

/** Two copies of one tune. See `mergeBooks`. */
export function mergeTunes(a: Tune, b: Tune): Tune {
  const chosen = later(a, b, tuneTime, tuneFace);
  const measures = mapById(mergeLists(measuresOf(a), measuresOf(b), ({ id }) => id, laterEdit));
  const parts = chosen.parts.map((part) => ({
    ...part,
    measures: part.measures.map((measure) => {
      const kept = measures.get(measure.id) ?? measure;
      measures.delete(measure.id);
      return kept;
    }),
  }));
  const { shelf: _shelf, layerShelf: _layerShelf, ...face } = chosen;
  const figures = mergeRuns(a.figures.map(asWritten), b.figures.map(asWritten), laterEdit);
  const shelf = [...measures.values()].sort(byId);
  const merged = { ...face, parts, figures, ...mergeLayers(a, b) };
  return fitFigures({ ...merged, ...(shelf.length > 0 && { shelf }) });
}

/** Two copies of one sitting. Their logs keep the order of writing when they agree on it, else the order of ids (which are of time). */
export function mergeSittings(a: SealedSitting, b: SealedSitting): SealedSitting {
  const chosen = later(
    a,
    b,
    ({ endedAt }) => endedAt,
    ({ drills: _drills, log: _log, ...face }) => face,
  );
  return {
    ...chosen,
    drills: mergeRuns(a.drills, b.drills, pickDrill),
    log: mergeRuns(a.log, b.log, pickEntry),
  };
}

function tuneTime({ editedAt, deletedAt }: Tune): number {
  return Math.max(editedAt, deletedAt ?? 0);
}

/** What a tune's own edit time speaks for: all but the figures, the layers, and the contents of measures. */
function tuneFace(tune: Tune): unknown {
  const { figures: _figures, shelf: _shelf, layers: _layers, layerShelf: _layerShelf, parts, ...face } = tune;
  return { ...face, parts: parts.map(({ name, measures }) => [name, measures.map(({ id }) => id)]) };
}

function measuresOf({ parts, shelf = [] }: Tune): Measure[] {
  return [...parts.flatMap(({ measures }) => measures), ...shelf];
}

function laterEdit<T extends { editedAt: number }>(a: T, b: T): T {
  return later(
    a,
    b,
    ({ editedAt }) => editedAt,
    (record) => record,
  );
}

function pickDrill(a: Drill, b: Drill): Drill {
  return later(
    a,
    b,
    ({ at }) => at,
    (drill) => drill,
  );
}

/** Entries are written once, so two that differ are damage; a pass outranks a correction, so that none is dropped. */
function pickEntry(a: LogEntry, b: LogEntry): LogEntry {
  if (a.kind !== b.kind) return a.kind === 'pass' ? a : b;
  return later(
    a,
    b,
    ({ at }) => at,
    (entry) => entry,
  );
}

function mapById<T extends { id: string }>(records: readonly T[]): Map<string, T> {
  return new Map(records.map((record) => [record.id, record]));
}
