import { speakTo } from '../texts/spoken';
import { BackupDesk } from './backup-desk';
import { promptCollection } from './prompt-collection';
import type { FromBackupWorker, ToBackupWorker } from './backup-mail';

promptCollection();
const language = speakTo(navigator.languages);
const calledOff = new AbortController();
const post = (message: FromBackupWorker): void => postMessage(message);
const desk = new BackupDesk(calledOff.signal, (progress) => post({ progress }));

addEventListener('message', ({ data }: MessageEvent<ToBackupWorker>) => {
  if (data === 'call off') {
    calledOff.abort();
    return;
  }
  language
    .then(() => desk.do(data))
    .then(
      (value) => post({ value }),
      (error: unknown) => {
        const text = error instanceof Error ? error.message : String(error);
        post({ error: text, isCalledOff: calledOff.signal.aborted });
      },
    );
});
