import { speakTo } from '../texts/spoken';
import { answer, type DeskQuestion } from './desk-mail';
import { LogDesk } from './log-desk';
import { promptCollection } from './prompt-collection';

promptCollection();
const language = speakTo(navigator.languages);
const desk = new LogDesk((read) => postMessage({ read }));

addEventListener('message', ({ data }: MessageEvent<DeskQuestion>) => {
  void language.then(() => answer(desk, data)).then((answered) => postMessage(answered));
});
