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
  /** In playing order. Open: both its figures are settled, so that it is worth drilling. */
  seams: { key: PassageKey; open: boolean }[];
  /** How many seams are open and not yet settled. */
  openSeams: number;
}

export function tuneBoard(tune: Tune, layerId: Id, standings: Standings): TuneBoard {
  const seams = seamPassages(tune, layerId).map((seam) => ({
    key: passageKey(seam),
    open: standings.seamIsOpen(seam),
  }));
  const passages: Passage[] = [
    ...figurePassages(tune, layerId),
    ...seamPassages(tune, layerId),
    ...partPassages(tune, layerId),
    { kind: 'tune', tuneId: tune.id, layerId },
  ];
  const found = Object.fromEntries(passages.map((passage) => [passageKey(passage), standings.of(passage)]));
  const { settled, slowest } = standings.tuneSettled(tune, layerId) ?? { settled: null, slowest: [] };
  return {
    ...{ tuneId: tune.id, layerId, goal: goalOf(tune), settled, seams },
    slowest: slowest[0]?.key ?? null,
    standings: found,
    openSeams: seams.filter(({ key, open }) => open && !found[key]?.isSettled).length,
  };
}
