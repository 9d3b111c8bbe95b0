import { answer, type DeskQuestion } from './desk-mail';
import { PracticeDesk } from './practice-desk';

const desk = new PracticeDesk();

addEventListener('message', ({ data }: MessageEvent<DeskQuestion>) => {
  postMessage(answer(desk, data));
});
