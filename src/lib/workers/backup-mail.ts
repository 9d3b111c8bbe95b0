import type { BookCounts, BookLook } from '../core/book/book';
import type { Moment } from '../core/time/moment';

/** What the backup worker can be asked for; `book` is the name of the database. */
export interface BackupJobs {
  /** The whole book as a file, which has been read back. */
  save: {
    job: { book: string; now: Moment; name: string; isPacked: boolean };
    result: WrittenBackup & { file: File };
  };
  /** The same, written over the file of that name in a folder; the old one stands until the new one is whole. */
  keep: {
    job: { book: string; now: Moment; name: string; isPacked: boolean; folder: FileSystemDirectoryHandle };
    result: WrittenBackup;
  };
  /** Checks a file without touching the book. */
  check: { job: { file: Blob }; result: FileOffer };
  /** Merges in a file that `check` found sound: one transaction or nothing. */
  merge: {
    job: { book: string; file: Blob; checksum: string | null; exportedAt: number };
    result: { tunes: number; sittings: number; passes: number };
  };
  /** The log of passes as comma-separated values. */
  log: { job: { book: string; name: string }; result: File };
  /** A look at every record of the log. */
  look: { job: { book: string }; result: BookLook };
}

export type BackupVerb = keyof BackupJobs;

export interface WrittenBackup {
  counts: BookCounts;
  /** What was left out because it is no sound record, in sentences. */
  leftOut: string[];
  /** What is wrong with what was written; empty when it reads back whole. */
  damage: string[];
}

/** `checksum` names the contents, for the merge; `null` for a file that was read whole. */
export type FileOffer =
  | { ok: true; exportedAt: number; counts: BookCounts; checksum: string | null }
  | { ok: false; damage: string[] };

export type BackupStage = 'writing' | 'reading back' | 'reading' | 'merging' | 'copying';

/** How far a job is: 0 to 1 of its present stage. After `merging` nothing can be called off any more. */
export interface BackupProgress {
  stage: BackupStage;
  share: number;
}

export type BackupRequest = {
  [Verb in BackupVerb]: { verb: Verb; job: BackupJobs[Verb]['job'] };
}[BackupVerb];

/** To the worker: one request, then perhaps that it be called off. */
export type ToBackupWorker = BackupRequest | 'call off';

/** From the worker: how far it is, then one answer. */
export type FromBackupWorker =
  | { progress: BackupProgress }
  | { value: BackupJobs[BackupVerb]['result'] }
  | { error: string; isCalledOff: boolean };
