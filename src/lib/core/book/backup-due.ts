import { say } from '../../texts/backup-file';
import type { Tune } from '../tune/tune';

/** What would be lost with this device: what is in no backup. */
export interface Unsaved {
  /** Sittings closed here since the last backup; without one, all. */
  sittings: number;
  /** The learner's own tunes that were written or changed since. */
  tunes: number;
  /** A backup was made from here before. */
  hasBackup: boolean;
}

/**
 * From here on Today says so. With the usual twenty minutes a sitting these are nearly seven hours of practice, more than
 * anybody wants to do twice; a tune set down by hand takes about as long as a sitting and counts as one. The calendar does not
 * matter: a month without practice loses nothing.
 */
export const MUCH = 20;

/** Whether to speak of it on Today. `hushedAt`: how much it was when the learner last said "not now"; 0 for never. */
export function isMuch({ sittings, tunes }: Unsaved, hushedAt: number): boolean {
  return sittings + tunes >= hushedAt + MUCH;
}

/** `23 sittings and 2 tunes since the last backup`; `null` when nothing would be lost. */
export function sayUnsaved({ sittings, tunes, hasBackup }: Unsaved): string | null {
  return sittings + tunes === 0 ? null : say.unsaved(sittings, tunes, hasBackup);
}

/** The learner's own tunes with any edit after an instant (Unix ms); all of them for `null`. */
export function tunesSince(tunes: readonly Tune[], at: number | null): number {
  const own = tunes.filter(
    ({ origin, deletedAt }) => origin === 'own' && (at !== null || deletedAt === null),
  );
  return at === null ? own.length : own.filter((tune) => lastEdit(tune) > at).length;
}

function lastEdit({ editedAt, deletedAt, figures, parts, layers, layerShelf = [] }: Tune): number {
  const ofLayers = [...layers, ...layerShelf].flatMap((layer) => [
    layer.editedAt ?? 0,
    ...Object.values(layer.changedAt ?? {}),
  ]);
  const edited = [...figures, ...parts.flatMap(({ measures }) => measures)];
  const times = [deletedAt ?? 0, ...edited.map((record) => record.editedAt), ...ofLayers];
  return times.reduce((latest, time) => Math.max(latest, time), editedAt);
}
