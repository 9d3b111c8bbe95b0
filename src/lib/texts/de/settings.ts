import { capital } from '../figures';
import type { say } from '../settings';
import { counted } from './number-words';

export const settings: typeof say = {
  title: 'Einstellungen · Phrasewright',
  heading: 'Einstellungen',
  drill: 'In der Übung',
  click: 'Klick und Saite',
  look: 'Aussehen und Tag',
  book: 'Das Buch',
  kept: 'Wo es aufbewahrt wird',
  backup: 'Sicherung',
  demo: 'Die Beispielstücke',
  deleted: 'Gelöschte Stücke',
  keys: 'Tasten und Fußschalter',
  words: 'Wörter und Datenschutz',
  wordsLink: 'Was die Wörter hier bedeuten',
  privacyLink: 'Was wo gespeichert ist und wie du es löschst',
  cautions: 'Hände und Ohren',
  erase: 'Alles löschen',

  earlierIsSafe: 'Alles, was vorher gespeichert wurde, ist noch da.',
  bookIsApart: 'Dein Buch ist davon nicht betroffen.',
  notHandedIn: 'Die geteilte Datei ist hier nicht angekommen: Wähle sie selbst aus.',

  demoHolds: (tunes) =>
    `${capital(counted(tunes, 'ein Beispielstück', 'Beispielstücke'))}, dazu alles, was eine erfundene Person damit geübt hat. Deine eigenen Stücke und Sitzungen bleiben, auch wenn du die Beispielstücke entfernst.`,
  takeDemoOut: 'Beispielstücke entfernen',
  demoIsOut: 'Die Beispielstücke sind entfernt. Deine eigenen Stücke und Sitzungen sind, wie sie waren.',
  deletedOn: (day) => `gelöscht am ${day}`,
  bringBack: 'Zurückholen',
  bringBackTune: (title) => `Zurückholen: ${title}`,
  isBack: (title) => `„${title}“ ist wieder da, mit allen Durchgängen.`,

  theme: 'Hell oder dunkel',
  themes: { system: 'wie das Gerät', light: 'hell', dark: 'dunkel' },
  dayStart: 'Stunde, zu der ein Übungstag beginnt',
  dayFromMidnight: 'Ein Übungstag dauert von Mitternacht bis Mitternacht.',
  dayFrom: (time) => `Was du vor ${time} Uhr spielst, zählt zum Tag davor.`,
};
