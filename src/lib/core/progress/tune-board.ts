import type { SettledTempo, Standing } from '../practice/standing';
import type { Standings } from '../practice/standings';
import { goalOf } from '../plan/tune-map';
import { passageKey, type Passage, type PassageKey } from '../tune/passage';
import { figurePassages, partPassages, seamPassages } from '../tune/places';
import type { Id, Tune } from '../tune/tune';

/** What the measure board of one tune shows, in one layer. Plain data. */
export interface TuneBoard {
  tuneId: Id;
  layerId: Id;
  goal: number;
  /** The tune's tempo: that of its slowest link; `null` when nothing has been played. */
  settled: SettledTempo | null;
  slowest: PassageKey | null;
  /** Of every figure, seam, part and the whole, by key. */
  standings: Record<PassageKey, Standing>;
  /** Keys of the seams whose two figures are settled, in playing order: these are worth drilling. */
  openSeams: PassageKey[];
  /** Different measures in this layer. */
  figures: number;
  /** Counted passes on any passage of the tune. */
  passes: number;
}

/** `passes`: counted passes of the tune. Passages of the tune's present shape only. */
export function tuneBoard(tune: Tune, layerId: Id, standings: Standings, passes: number): TuneBoard {
  const figures = figurePassages(tune, layerId);
  const seams = seamPassages(tune, layerId);
  const passages: Passage[] = [
    ...figures,
    ...seams,
    ...partPassages(tune, layerId),
    { kind: 'tune', tuneId: tune.id, layerId },
  ];
  const { settled, slowest } = standings.tuneSettled(tune, layerId) ?? { settled: null, slowest: [] };
  return {
    ...{ tuneId: tune.id, layerId, goal: goalOf(tune), settled, passes, figures: figures.length },
    slowest: slowest[0]?.key ?? null,
    standings: Object.fromEntries(passages.map((passage) => [passageKey(passage), standings.of(passage)])),
    openSeams: seams.filter((seam) => standings.seamIsOpen(seam)).map(passageKey),
  };
}
