import { DAY_MS } from '../time/moment';
import type { Passage } from '../tune/passage';
import type { Tune } from '../tune/tune';
import { OUTCOMES, type Drill, type Pass } from './records';
import { foldStandings } from './standings';

const NIGHTS = 6;
const SIX_PM = 18 * 3_600_000;

/**
 * What the fold makes of a small invented log, as one string: it changes with every constant and rule of the fold, so
 * that a snapshot made by an older program is not believed. About a millisecond, once.
 */
export function foldPrint(): string {
  const tune = printTune();
  const layerId = 'plain';
  const played: Passage[] = [
    { kind: 'tune', tuneId: tune.id, layerId },
    { kind: 'part', tuneId: tune.id, layerId, part: 'A' },
    { kind: 'figure', tuneId: tune.id, figureId: 'f1' },
    { kind: 'seam', tuneId: tune.id, fromFigureId: 'f0', toFigureId: 'f1' },
  ];
  const sittings = Array.from({ length: NIGHTS }, (_, night) => printSitting(played, night));
  // nights of one, three, seven ... days, so that memory has something to forget
  const now = { at: nightAt(NIGHTS), offsetMin: 0 };
  const standings = foldStandings({ tunes: [tune], sittings, now });
  return JSON.stringify(
    standings.snapshot()?.states.map(({ belief, memory, ...state }) => {
      const { cells, from, to, sum } = belief;
      return [
        from,
        to,
        sum,
        cells.reduce((total, cell, at) => total + at * cell, 0),
        memory,
        Object.entries(state),
      ];
    }),
  );
}

function nightAt(night: number): number {
  return 11_000 * DAY_MS + SIX_PM + (2 ** night - 1) * DAY_MS;
}

function printTune(): Tune {
  const moment = { at: 0, offsetMin: 0 };
  const figureIds = ['f0', 'f1', 'f2'];
  return {
    ...{
      id: 'print',
      title: '',
      key: '',
      meter: '2/2',
      goalTempo: 100,
      form: 'A',
      layers: [{ id: 'plain', name: '', changes: {} }],
    },
    ...{ tuning: [67, 50, 55, 59, 62], capo: 0, spike: 0, pickup: null, origin: 'own', archived: false },
    ...{ added: moment, editedAt: 0, deletedAt: null },
    parts: [
      { name: 'A', measures: figureIds.map((figureId) => ({ id: `m${figureId}`, figureId, editedAt: 0 })) },
    ],
    figures: figureIds.map((id) => ({ id, beats: 2, strikes: null, editedAt: 0 })),
  };
}

function printSitting(played: readonly Passage[], night: number): { drills: Drill[]; log: Pass[] } {
  const drills = played.map((passage, place): Drill => ({
    ...{ id: `d${night}${place}`, sittingId: `s${night}`, passage, climb: 'steady' },
    ...{ at: nightAt(night), offsetMin: 0 },
  }));
  const log = drills.flatMap(({ id }, place) =>
    Array.from({ length: 5 }, (_, turn): Pass => ({
      ...{ kind: 'pass', id: `p${night}${place}${turn}`, drillId: id, fromMemory: turn % 2 === 0 },
      ...{ at: nightAt(night) + 60_000 * (5 * place + turn), offsetMin: 0, tempo: 50 + 4 * night + 3 * turn },
      outcome: OUTCOMES[(night + place + turn) % 4] ?? 'clean',
      missAt: turn === 1 ? 1 : null,
    })),
  );
  return { drills, log };
}
