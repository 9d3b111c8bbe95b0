import type { MidiNote } from './midi-events';

/** A note on the grid, in ticks (which need not be whole). */
export interface GridNote {
  from: number;
  to: number;
  pitch: number;
  /** Ticks a whole note. */
  unit: number;
}

/** Parts of a quarter note that notes are moved to: sixteenths, or triplet eighths. */
const GRIDS = [4, 3] as const;
/** A triplet must fit this much better than sixteenths before it is believed, as a share of its step. */
const PREFERRED = 0.1;
/** Less is the rounding of the file itself. */
const HEARD = 0.02;

/**
 * Moves onsets and ends to the grid that fits each beat better. `division` and `beat` are in ticks. Notes keep at least
 * one step; `mostMoved` is in ticks.
 */
export function quantised(
  notes: readonly MidiNote[],
  division: number,
  beat: number,
): { notes: GridNote[]; movedNotes: number; mostMoved: number } {
  const grids = gridsByBeat(notes, division, beat);
  const stepAt = (tick: number) => division / (grids.get(Math.floor(tick / beat)) ?? GRIDS[0]);
  const nearest = (tick: number) => Math.round(tick / stepAt(tick)) * stepAt(tick);
  let [movedNotes, mostMoved] = [0, 0];
  const moved = notes.map(({ tick, ticks, pitch }): GridNote => {
    const from = nearest(tick);
    const to = Math.max(from + stepAt(tick), nearest(tick + ticks));
    const off = Math.abs(from - tick);
    if (off > HEARD * division) movedNotes += 1;
    mostMoved = Math.max(mostMoved, off);
    return { from, to, pitch, unit: 4 * division };
  });
  return { notes: moved.sort((a, b) => a.from - b.from || b.pitch - a.pitch), movedNotes, mostMoved };
}

function gridsByBeat(notes: readonly MidiNote[], division: number, beat: number): Map<number, number> {
  const onsets = new Map<number, number[]>();
  for (const { tick } of notes) {
    const index = Math.floor(tick / beat);
    const list = onsets.get(index) ?? [];
    list.push(tick);
    onsets.set(index, list);
  }
  const offBy = (ticks: readonly number[], grid: number) =>
    ticks.reduce((sum, tick) => {
      const places = (tick * grid) / division;
      return sum + Math.abs(places - Math.round(places)) / grid;
    }, 0) / ticks.length;
  return new Map(
    [...onsets].map(([index, ticks]) => {
      const [even, triplet] = [offBy(ticks, GRIDS[0]), offBy(ticks, GRIDS[1])];
      return [index, triplet + PREFERRED / GRIDS[1] < even ? GRIDS[1] : GRIDS[0]];
    }),
  );
}
