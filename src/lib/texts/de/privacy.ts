import type { say } from '../privacy';

export const privacy: typeof say = {
  title: 'Datenschutz · Phrasewright',
  back: '‹ Einstellungen',
  heading: 'Datenschutz',
  inShort:
    'Nichts, was du spielst, schreibst oder wählst, verlässt dieses Gerät, außer du speicherst es in eine Datei oder gibst es weiter.',

  stored: 'Was gespeichert wird',
  storedBook: 'Das Buch: deine Stücke, jede Sitzung und jeder Durchgang und deine Einstellungen.',
  storedMiddle:
    'Womit du gerade beschäftigt warst: ein angefangener Takt oder ein angefangenes Formular, was du heute gewählt hast.',
  storedProgram: 'Das Programm selbst, damit es sich ohne Netz öffnen lässt, und die Version davor.',

  where: 'Wo',
  whereBrowser:
    'In diesem Browser, auf diesem Gerät, mit einer Zweitschrift, wenn der Browser Platz dafür hat. Ein anderer Browser oder das Konto einer anderen Person auf diesem Gerät hat ein eigenes Buch.',
  whereFiles:
    'Sicherungen, Übeblätter und Listen, die du gespeichert hast, sind deine eigenen Dateien, in dem Ordner, den du gewählt hast, oder unter deinen Downloads. Die App liest eine Datei nur, wenn du sie hier öffnest.',

  notDone: 'Was nicht geschieht',
  noAccount: 'Kein Konto, keine Cookies, kein Zählen von Besuchern, nichts von einer anderen Website.',
  noMicrophone:
    'Mikrofon und Kamera werden nicht benutzt. Auf einen Fußschalter wird erst gehört, wenn du es erlaubst.',
  network: 'Das Netz dient nur dazu, das Programm zu laden und nach einer neueren Version zu sehen.',

  erase: 'Wie du alles löschst',
  eraseBefore: 'Geh in den Einstellungen zu ',
  eraseLink: 'Alles löschen',
  eraseAfter:
    '. Dort wirst du erst gefragt, und eine Sicherung wird dir angeboten. Danach ist das Buch leer und jede Einstellung wie am Anfang.',
  eraseProgram:
    'Soll auch das Programm mit allen Spuren weg, lösche die Daten dieser Website in den Einstellungen des Browsers. Eine installierte App entfernst du wie andere Apps auf diesem Gerät.',
  eraseFiles: 'Lösche die Dateien, die du selbst gespeichert hast: Die App kommt nicht an sie heran.',
};
