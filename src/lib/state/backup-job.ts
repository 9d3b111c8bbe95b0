import type { BackupJobs, BackupProgress, BackupVerb } from '$lib/workers/backup-mail';

/** Has the backup worker do something; its client is loaded when it is first needed. See `runBackupJob`. */
export async function backupJob<Verb extends BackupVerb>(
  signal: AbortSignal,
  verb: Verb,
  job: BackupJobs[Verb]['job'],
  onProgress?: (progress: BackupProgress) => void,
): Promise<BackupJobs[Verb]['result']> {
  const { runBackupJob } = await import('$lib/workers/backup-client');
  return runBackupJob(signal, verb, job, onProgress);
}
