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
  folderGone: 'Den Ordner gibt es nicht mehr. Wähle ihn oder einen anderen noch einmal.',
  folderRefused: 'Der Browser darf dort nicht mehr schreiben. Wähle den Ordner noch einmal.',
  folderFull: 'Wo der Ordner liegt, ist kein Platz mehr.',
  fileInUse: 'Etwas anderes hat die Datei geöffnet.',
  noWorker: 'Der Sicherungsteil der App ließ sich nicht starten',
};
