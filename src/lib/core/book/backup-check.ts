import * as v from 'valibot';
import { say } from '../../texts/backup-file';
import { say as sayDamage } from '../../texts/damage';
import type { SealedSitting } from '../practice/records';
import type { Moment } from '../time/moment';
import { BookChecksum, RECORD_KINDS, type RecordKind } from './book-checksum';
import { countPasses, type BookCounts } from './book';
import { canonicalJson } from './canonical-json';
import { RECORDS_MAX } from './limits';
import { DamageList, sayAt, show } from './say-damage';
import { recordFaults } from './schema';
import { momentSchema } from './schema-words';

export const BACKUP_FORMAT = 'phrasewright-backup';
/** Raised by one with every change of the records; `READ_FROM` is the oldest that is still read, unchanged since. */
export const BACKUP_VERSION = 3;
/** Version 1 had no melodies, labels, fingers, weights and ties, version 2 no written lengths: all are optional. */
const READ_FROM = 1;

/** What is said of a backup that was read to its end. `checksum` names its contents. */
export type BackupVerdict =
  { ok: true; exportedAt: Moment; counts: BookCounts; checksum: string } | { ok: false; damage: string[] };

const FIELDS: readonly string[] = [
  ...['format', 'version', 'exportedAt', 'counts'],
  ...RECORD_KINDS,
  'checksum',
];

/**
 * Checks a backup piece by piece: its fields as they come, its records one by one in the order of `RECORD_KINDS`, and at
 * the end that what it says of itself is so. Keeps no records, only their ids.
 */
export class BackupCheck {
  readonly #isTrusted: boolean;
  readonly #checksum = new BookChecksum();
  readonly #damage = new DamageList();
  readonly #strangers: string[] = [];
  readonly #fields = new Map<string, unknown>();
  readonly #seen = { settings: new Set<string>(), sittings: new Set<string>(), tunes: new Set<string>() };
  #drills = 0;
  #passes = 0;

  /** `isTrusted`: every record was checked before, and only checksum and counts are looked at again. */
  constructor(isTrusted = false) {
    this.#isTrusted = isTrusted;
  }

  /** A field other than the lists of records. */
  field(key: string, value: unknown): void {
    this.#fields.set(key, value);
    if (!FIELDS.includes(key)) this.#strangers.push(say.notField(show(key)));
  }

  /** A list of records begins. `value`: what stands there instead, when it is none. */
  list(kind: RecordKind, value: unknown = []): void {
    this.#fields.set(kind, []);
    if (!Array.isArray(value)) this.#damage.add(sayAt([kind], sayDamage.notList));
    else if (value.length > RECORDS_MAX) this.#tooMany(kind);
  }

  /** The next record of a list. */
  record(kind: RecordKind, record: unknown): void {
    const seen = this.#seen[kind];
    if (seen.size >= RECORDS_MAX) {
      if (seen.size === RECORDS_MAX) this.#tooMany(kind);
      return;
    }
    const faults = this.#isTrusted ? [] : recordFaults(kind, record, seen.size);
    for (const fault of faults) this.#damage.add(fault);
    const { id, key } = (record ?? {}) as { id?: unknown; key?: unknown };
    // a damaged record counts as well, so that the next one is named by its place
    const name = faults.length > 0 ? `#${seen.size}` : String(id ?? key);
    if (seen.has(name)) this.#damage.add(sayAt([kind], sayDamage.twice(name)));
    seen.add(name);
    if (this.#damage.isEmpty) this.#count(kind, record);
  }

  #count(kind: RecordKind, record: unknown): void {
    this.#checksum.add(kind, canonicalJson(record));
    if (kind !== 'sittings') return;
    const { drills, log } = record as SealedSitting;
    this.#drills += drills.length;
    this.#passes += countPasses(log);
  }

  #tooMany(kind: RecordKind): void {
    this.#damage.add(sayAt([kind], sayDamage.tooMany(RECORDS_MAX)));
  }

  /** Why the file is no backup that this app reads, as far as its fields have come; `null` while it may be one. */
  strangerFault(isWhole: boolean): string | null {
    const isKnown = (key: string): boolean => isWhole || this.#fields.has(key);
    if (isKnown('format') && this.#fields.get('format') !== BACKUP_FORMAT) {
      return say.notOurs(BACKUP_FORMAT);
    }
    return isKnown('version') ? versionFault(this.#fields.get('version')) : null;
  }

  /** To be asked once, at the end. */
  verdict(): BackupVerdict {
    const stranger = this.strangerFault(true);
    if (stranger !== null) return { ok: false, damage: [stranger] };
    for (const kind of RECORD_KINDS)
      if (!this.#fields.has(kind)) this.#damage.add(sayAt([kind], sayDamage.notList));
    const exportedAt = this.#fields.get('exportedAt');
    const damage = [...this.#strangers.slice(0, 3), ...this.#damage.said()];
    if (!v.is(momentSchema, exportedAt))
      damage.push(sayAt(['exportedAt'], sayDamage.notMoment(show(exportedAt))));
    const counts = this.#counts();
    const checksum = this.#damage.isEmpty ? this.#checksum.digest() : null;
    const said = this.#fields.get('counts');
    if (checksum !== null && checksum !== this.#fields.get('checksum')) {
      damage.push(say.checksum);
    } else if (checksum !== null && canonicalJson(said) !== canonicalJson(counts)) {
      damage.push(sayAt(['counts'], say.counts(show(said))));
    }
    const isSound = damage.length === 0 && checksum !== null && v.is(momentSchema, exportedAt);
    if (!isSound) return { ok: false, damage };
    return { ok: true, exportedAt, counts, checksum };
  }

  #counts(): BookCounts {
    const { settings, sittings, tunes } = this.#seen;
    return {
      ...{ tunes: tunes.size, sittings: sittings.size, settings: settings.size },
      ...{ drills: this.#drills, passes: this.#passes },
    };
  }
}

function versionFault(version: unknown): string | null {
  const isNumbered = typeof version === 'number' && Number.isInteger(version);
  if (isNumbered && version >= READ_FROM && version <= BACKUP_VERSION) return null;
  if (isNumbered && version > BACKUP_VERSION) return say.newer(version, BACKUP_VERSION);
  return sayAt(['version'], say.notVersion(show(version)));
}
