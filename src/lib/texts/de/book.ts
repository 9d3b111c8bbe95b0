import type { say } from '../book';
import { listed } from '../figures';

const counted = (number: number, one: string, many: string): string[] =>
  number <= 0 ? [] : [number === 1 ? one : `${number} ${many}`];

export const book: typeof say = {
  savedIsSafe: 'Alles, was vorher gespeichert wurde, ist sicher.',
  unchanged: 'Es wurde nichts geändert.',
  untouched: 'Das Buch wurde nicht angerührt.',

  full: 'Auf diesem Gerät ist kein Platz mehr, deshalb wurde dies nicht gespeichert. Schaffe etwas Platz und versuch es noch einmal.',
  takenOver:
    'Das Buch ist jetzt in einem anderen Tab offen, deshalb wurde dies nicht gespeichert. Lade diese Seite neu.',
  refused:
    'Dieser Browser lässt Phrasewright sein Buch nicht aufbewahren: vielleicht ist das Fenster privat, der Speicher für diese Seite abgeschaltet oder beschädigt. Erlaube das Speichern oder nimm ein gewöhnliches Fenster, und starte den Browser neu, wenn das nicht hilft.',
  failed: (reason) =>
    `Der Browser konnte das Buch nicht lesen oder beschreiben (${reason}). Versuch es noch einmal; hilft das nicht, starte den Browser neu.`,
  newer:
    'Dieses Buch wurde zuletzt von einer neueren Version von Phrasewright geöffnet. Lade die Seite neu, um diese Version zu bekommen.',
  olderTab:
    'Ein anderer Tab hält eine ältere Version des Buches offen. Schließe die anderen Tabs von Phrasewright und lade dann neu.',
  closedElsewhere:
    'Die Sitzung wurde beendet, vielleicht in einem anderen Tab, deshalb wurde dies nicht gespeichert. Beginne eine neue.',
  silentBrowser: 'Der Browser öffnet keine Datenbank und sagt nicht, warum.',
  noReason: 'Der Browser sagt nicht, woran es lag',

  notDone: {
    tune: 'Das Stück wurde nicht gespeichert',
    setting: 'Die Einstellung wurde nicht gespeichert',
    sitting: 'Die Sitzung wurde nicht begonnen',
    drill: 'Die Übung wurde nicht begonnen',
    mark: 'Die Markierung wurde nicht gespeichert',
    newMark: 'Die Markierung wurde nicht geändert',
    change: 'Die Änderung wurde nicht gespeichert',
    book: 'Das Buch wurde nicht übernommen',
  },
  wrong: {
    tune: 'es steht nicht im Buch',
    sitting: 'das ist keine Sitzung',
    drill: 'das ist keine Übung',
    mark: 'das ist kein Eintrag des Protokolls',
    newMark: 'ihr Durchgang gehört nicht zu dieser Sitzung',
    change: 'das ergibt keine Sitzung',
  },
  wrongSetting: (name) => `${name} kann das nicht sein`,

  oneCopy: 'Dieser Browser führt nur ein Exemplar des Buches. Mach ab und zu eine Sicherung.',
  copyFailed: (reason) =>
    `Die Zweitschrift des Buches lässt sich nicht schreiben (${reason}). Die Erstschrift ist vorhanden; mach bald eine Sicherung.`,
  recovered: (tunes, sittings, passes) => {
    const found = [
      ...counted(tunes, 'ein Stück', 'Stücke'),
      ...counted(sittings, 'eine Sitzung', 'Sitzungen'),
      ...counted(passes, 'einen Durchgang', 'Durchgänge'),
    ];
    return `Der Browser hatte einen Teil des Buches verloren. Die Zweitschrift hat ${listed(found)} zurückgebracht.`;
  },
  setAside: (added, restored) => {
    const what =
      added === 1
        ? 'Ein Datensatz des Buches war beschädigt und ist beiseitegelegt'
        : `${added} Datensätze des Buches waren beschädigt und sind beiseitegelegt`;
    const all =
      restored >= added
        ? ' Die Zweitschrift hatte alles unversehrt.'
        : ' Die Zweitschrift hatte einen Teil davon unversehrt.';
    return `${what}; der Rest ist, wie er war.${restored === 0 ? '' : all} Die Liste steht in den Einstellungen.`;
  },
};
