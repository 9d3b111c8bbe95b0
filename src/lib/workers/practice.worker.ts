import { promptCollection } from './prompt-collection';
import { answer, type DeskQuestion } from './desk-mail';
import { LogDesk } from './log-desk';

promptCollection();
const desk = new LogDesk((read) => postMessage({ read }));

addEventListener('message', ({ data }: MessageEvent<DeskQuestion>) => {
  void answer(desk, data).then((answered) => postMessage(answered));
});
