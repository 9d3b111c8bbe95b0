import type { say } from '../common';

export const common: typeof say = {
  bookUnchanged: 'Im Buch wurde nichts geändert.',
  marksInBook: 'Jeder markierte Durchgang steht im Buch.',
  tryAgain: 'Noch einmal versuchen',
  saveToFile: 'In eine Datei speichern',
  rusts: { fresh: 'frisch', 'beginning to fade': 'beginnt zu verblassen', 'likely faded': 'wohl verblasst' },
};
