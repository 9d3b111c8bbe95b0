import type { say } from '../import-work';

export const importWork: typeof say = {
  tooLarge: (megabytes) =>
    `Diese Datei ist größer als ${megabytes} MB, mehr als jedes Notenbuch. Sie wurde nicht geöffnet.`,
  nothingRead: 'In diesem Stück war nichts lesbar.',
  notAdded: (reason) => `Es wurde nichts hinzugefügt: ${reason}`,
  someAdded: (added, all, reason) =>
    `Von ${all} ${added === 1 ? 'wurde nur eines' : `wurden nur ${added}`} hinzugefügt: ${reason}`,
  tookTooLong: 'Das Lesen hat zu lange gedauert und wurde aufgegeben. Es wurde nichts hinzugefügt.',
  noReader: 'Der Leseteil der App ließ sich nicht starten.',
};
