import { say } from '../texts/backup-work';
import { scriptUrl } from '../script-urls';
import type { BackupJobs, BackupProgress, BackupVerb, FromBackupWorker } from './backup-mail';
import workerUrl from './backup.worker.ts?worker&url';

/**
 * Has a job done in a worker of its own, which ends with it and gives its memory back. Rejects with the signal's reason
 * once the job has been called off and has undone what it did, or with what went wrong, in a sentence.
 */
export function runBackupJob<Verb extends BackupVerb>(
  signal: AbortSignal,
  verb: Verb,
  job: BackupJobs[Verb]['job'],
  onProgress: (progress: BackupProgress) => void = () => undefined,
): Promise<BackupJobs[Verb]['result']> {
  signal.throwIfAborted();
  const worker = new Worker(scriptUrl(workerUrl), { type: 'module' });
  const callOff = (): void => worker.postMessage('call off');
  const working = new Promise<BackupJobs[Verb]['result']>((resolve, reject) => {
    signal.addEventListener('abort', callOff);
    worker.addEventListener('error', (event) => {
      // a script that cannot be loaded gives an event without a message
      reject(new Error(event.message || say.noWorker));
    });
    worker.addEventListener('message', ({ data }: MessageEvent<FromBackupWorker>) => {
      if ('progress' in data) onProgress(data.progress);
      else if ('value' in data) resolve(data.value);
      else reject(data.isCalledOff ? signal.reason : new Error(data.error));
    });
  });
  const request = { verb, job };
  worker.postMessage(request);
  return working.finally(() => {
    signal.removeEventListener('abort', callOff);
    worker.terminate();
  });
}
