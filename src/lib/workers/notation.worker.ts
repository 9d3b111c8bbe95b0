import { NotationReader, type NotationQuestion } from './notation-mail';

const reader = new NotationReader();

addEventListener('message', ({ data }: MessageEvent<NotationQuestion>) => {
  postMessage(reader.answer(data));
});
