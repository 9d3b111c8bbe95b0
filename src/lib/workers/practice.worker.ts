import { answer, type DeskQuestion } from './desk-mail';
import { LogDesk } from './log-desk';

const desk = new LogDesk((read) => postMessage({ read }));

addEventListener('message', ({ data }: MessageEvent<DeskQuestion>) => {
  void answer(desk, data).then((answered) => postMessage(answered));
});
