import { speakTo } from '../texts/spoken';
import { NotationReader, type NotationQuestion } from './notation-mail';

const language = speakTo(navigator.languages);
const reader = new NotationReader();

addEventListener('message', ({ data }: MessageEvent<NotationQuestion>) => {
  void language.then(() => postMessage(reader.answer(data)));
});
