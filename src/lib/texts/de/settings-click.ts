import type { say } from '../settings-click';

export const settingsClick: typeof say = {
  pattern: 'Muster',
  patterns: {
    beat: 'der Schlag',
    'down-stroke': 'Puls der Abschläge',
    eighths: 'Achtel',
    'off-beats': 'Offbeats',
    drone: 'die Stelle des Borduns',
    silent: 'stumm',
  },
  patternMeans: {
    beat: 'Jeder Schlag, der erste des Takts stärker.',
    'down-stroke': 'Lang, kurz-kurz: der Puls der rechten Hand.',
    eighths: 'Jedes Achtel, die Schläge stärker.',
    'off-beats': 'Nur zwischen den Schlägen: Den Schlag hältst du selbst.',
    drone: 'Nur da, wo der Daumen auf der kurzen Saite antwortet.',
    silent: 'Der Einzähler ist zu hören, dann ist der Durchgang stumm: Dein eigener Puls trägt ihn.',
  },
  swing: 'Swing',
  sound: 'Klang des Klicks',
  sounds: { wood: 'Holz', bell: 'Glocke', rim: 'Kesselrand' },
  volume: 'Lautstärke',
  volumes: { click: 'Klick', string: 'Saite' },
  hear: { click: 'Klick anhören', string: 'Saite anhören' },
  stop: { click: 'Klick anhalten', string: 'Saite anhalten' },
  ears: 'Stell Klick und Kopfhörer so leise, dass es deinen Ohren nicht schadet, und gönn ihnen ab und zu eine Pause.',
  counted: 'Laut gezählt',
  countedMeans:
    'Der Einzähler wird gesprochen, von einer Stimme, die hier erzeugt wird und nicht aufgenommen ist.',

  nudge: 'Der Schlag auf dem Bildschirm',
  tryPulse: 'Ausprobieren',
  stopPulse: 'Puls anhalten',
  nudgeMeans:
    'Bei Kopfhörern ohne Kabel kommt der Klick zu spät. Lass den Puls laufen und verschieb den Regler, bis Block und Klick zusammenfallen: nach später, wenn der Block dem Klang vorausläuft, nach früher, wenn er hinterherläuft.',
};
