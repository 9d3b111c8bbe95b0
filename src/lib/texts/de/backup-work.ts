import type { say } from '../backup-work';

export const backupWork: typeof say = {
  begins: 'Es geht los',
  stages: {
    writing: 'Wird geschrieben',
    'reading back': 'Wird gegengelesen',
    reading: 'Wird gelesen',
    merging: 'Wird zusammengeführt',
    copying: 'Die Zweitschrift wird nachgeführt',
  },
  notWhole: (faults) =>
    `Die Sicherung wurde geschrieben, lässt sich aber nicht unversehrt zurücklesen: ${faults}.`,
  noWorker: 'Der Sicherungsteil der App ließ sich nicht starten',
};
