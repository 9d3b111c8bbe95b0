import type { say } from '../share';

export const share: typeof say = {
  share: 'Teilen',
  layer: 'Fassung',
  link: 'Link oder Code',
  linkWhat: 'das Stück mit allen Fassungen, für ein anderes Buch',
  sheet: 'Übeblatt',
  sheetWhat: 'die Tabulatur auf einer Seite, zum Drucken',
  close: 'Schließen',
  formats: {
    musicxml: { name: 'MusicXML', what: 'Noten und Tabulatur, für ein Notenprogramm' },
    abc: { name: 'ABC', what: 'die Melodie als Text' },
    tab: { name: 'Getippte Tabulatur', what: 'die Tabulatur als Text, überall lesbar' },
    midi: { name: 'MIDI', what: 'der Klang, wie er gespielt wird' },
  },
  became: {
    sent: 'Weitergegeben.',
    left: 'Nicht verschickt.',
    saved: 'Als Datei gespeichert.',
  },
  notMade:
    'Die Datei ließ sich nicht erstellen. Das Stück ist sicher; lade die Seite neu und versuch es noch einmal.',
};
