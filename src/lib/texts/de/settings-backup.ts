import { inFigures, plural } from '../figures';
import type { say } from '../settings-backup';

export const settingsBackup: typeof say = {
  counts: (tunes, sittings, passes) =>
    [
      `${inFigures(tunes)} ${plural(tunes, { one: 'Stück', other: 'Stücke' })}`,
      `${inFigures(sittings)} ${plural(sittings, { one: 'Sitzung', other: 'Sitzungen' })}`,
      `${inFigures(passes)} ${plural(passes, { one: 'Durchgang', other: 'Durchgänge' })}`,
    ].join(', '),
  holds: (counts, deleted) =>
    deleted > 0
      ? `${counts}; ${deleted} der Stücke ${deleted === 1 ? 'ist' : 'sind'} gelöscht.`
      : `${counts}.`,
  counting: 'Wird gezählt …',

  allSaved: 'Alles ist in der letzten Sicherung.',
  nothingOwn: 'Noch ist nichts Eigenes darin.',
  save: 'Sicherung speichern',
  send: 'Sicherung weitergeben …',
  sendReady: 'Fertig: jetzt weitergeben',
  read: 'Sicherung einlesen',
  going: (what, percent) => `${what}: ${percent} %`,
  stop: 'Abbrechen',
  offer: (name) => `Sicherung ${name}`,
  savedOn: (name, day) => `${name}, gespeichert am ${day}`,
  askMerge: (counts) => `${counts}. Mit diesem Buch zusammenführen?`,
  mergeMeans: 'Was in beiden steht, wird nur einmal behalten, und nichts, was hier ist, geht verloren.',
  merge: 'Zusammenführen',
  dismiss: 'Nicht übernehmen',
  unreadable: (name) => `${name} lässt sich nicht als Sicherung lesen.`,
  nothingChanged: 'Nichts wurde geändert.',
  dismissUnreadable: 'Nicht verwenden',
  saved: (name) =>
    `Gespeichert als ${name}, unter deinen Downloads. Die Datei lässt sich vollständig wieder einlesen.`,
  savedWithout: (name, count, some) =>
    `Gespeichert als ${name}, unter deinen Downloads. Die Datei lässt sich vollständig wieder einlesen. ${
      count === 1 ? 'Ein beschädigter Datensatz fehlt' : `${count} beschädigte Datensätze fehlen`
    } darin: ${some}.`,
  sent: 'Die Sicherung wurde weitergegeben.',
  notSent: (name) =>
    `Dieses Gerät gibt solche Dateien nicht weiter. ${name} liegt deshalb unter deinen Downloads.`,
  added: (counts) => `Neu in diesem Buch: ${counts}.`,
  nothingAdded:
    'Kein Stück, keine Sitzung und kein Durchgang darin war neu. Was darin später geändert wurde, ist übernommen.',
  stopped: 'Abgebrochen. Nichts wurde geändert.',

  spreadsheet: 'Für eine Tabellenkalkulation',
  spreadsheetMeans:
    'Jeder Durchgang mit Zeit, Stück, Passage, Tempo und Ergebnis, einer je Zeile, durch Kommas getrennt. Wieder einlesen lässt sich das nicht: Das geht nur mit einer Sicherung.',
  saveLog: 'Protokoll als CSV speichern',

  copy: 'Eine laufende Kopie',
  copyImpossible:
    'Dieser Browser lässt eine App nicht von selbst in einen Ordner schreiben. Speichere eine Sicherung oder gib eine weiter, wenn die Zeile oben sagt, dass viel verloren ginge.',
  copyMeans:
    'Nach jeder Sitzung wird das ganze Buch in einen Ordner geschrieben, den du auswählst, und ersetzt die Kopie davor. Nimm einen, der selbst an einen anderen Ort kopiert wird.',
  pickFolder: 'Ordner auswählen …',
  copyKept: (folder, file) =>
    `Nach jeder Sitzung wird das Buch in den Ordner ${folder} geschrieben, als ${file}.`,
  copyWaits: (folder) =>
    `Der Browser will erst von dir hören, bevor er wieder in den Ordner ${folder} schreibt.`,
  allow: 'Schreiben erlauben',
  pickAnother: 'Anderen Ordner auswählen …',
  forget: 'Dort keine Kopie mehr führen',
  writingCopy: 'Die Kopie wird geschrieben …',
  copyFailed: (folder, why) =>
    `Die Kopie ${folder === null ? 'im Ordner' : `im Ordner ${folder}`} wurde nicht geschrieben: ${why}`,
  copyFailedSafe:
    'Das Buch selbst ist, wie es war, und die Kopie davor auch. Wenn es den Ordner nicht mehr gibt, wähle einen anderen.',

  eraseMeans: 'Leert das Buch auf diesem Gerät und setzt jede Einstellung auf den Anfang zurück.',
  erase: 'Alles löschen …',
  askErase: 'Das ganze Buch löschen?',
  askEraseOf: (counts) => `Das ganze Buch löschen? Weg sind dann: ${counts} und jede Einstellung.`,
  eraseForGood:
    'Das lässt sich nicht rückgängig machen. Nur eine Sicherung, die du vorher gespeichert hast, kann alles zurückbringen.',
  saveFirst: 'Erst eine Sicherung speichern',
  eraseAll: 'Alles löschen',
  keep: 'Behalten',
  erased: 'Das Buch ist leer, und jede Einstellung ist wie am Anfang.',
};
