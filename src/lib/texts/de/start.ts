import type { StartTexts } from '../start';

/** Not listed in `index.ts`: see the English file. */
export const start: StartTexts = {
  title: 'Phrasewright ist nicht gestartet',
  safe: 'Dein Buch ist, wie es war: es wird getrennt vom Programm aufbewahrt.',
  tryAgain: 'Noch einmal versuchen',
  getNewest: 'Neueste Version holen',
  stepBack: 'Vorige Version verwenden',
  noVersionBefore: 'Die vorige Version ist nicht mehr auf diesem Gerät.',
  moment: 'Einen Moment …',
  newest: {
    none: 'Es gibt noch keine neuere Version, und die Dateien hier sind unversehrt.',
    'no network':
      'Der Server ist nicht erreichbar. Verbinde dich mit dem Netz und versuch es dann noch einmal.',
    drill: 'In einem anderen Tab ist eine Übung offen. Beende sie zuerst dort.',
  },
};
