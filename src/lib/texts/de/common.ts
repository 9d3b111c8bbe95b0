import type { say } from '../common';

export const common: typeof say = {
  bookUnchanged: 'Im Buch wurde nichts geändert.',
  marksInBook: 'Jeder markierte Durchgang steht im Buch.',
  tryAgain: 'Noch einmal versuchen',
  takenUp: 'Weiter, wo du aufgehört hast.',
  startAfresh: 'Von vorn beginnen',
  saveToFile: 'In eine Datei speichern',
  rusts: { fresh: 'frisch', 'beginning to fade': 'beginnt zu verblassen', 'likely faded': 'wohl verblasst' },
};
