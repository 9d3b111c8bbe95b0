import { MINUTE_MS, type Moment } from '$lib/core/time/moment';

/** Where the platform packs streams, backups are packed. */
export function canPack(): boolean {
  return typeof CompressionStream !== 'undefined';
}

/** The ending of a backup's name. */
export function backupEnding(isPacked: boolean): string {
  return isPacked ? '.json.gz' : '.json';
}

/** `phrasewright-2026-11-25`, by the local date. */
export function datedName({ at, offsetMin }: Moment): string {
  return `phrasewright-${new Date(at + offsetMin * MINUTE_MS).toISOString().slice(0, 10)}`;
}
