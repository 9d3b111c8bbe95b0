import type { say } from '../settings-storage';

export const settingsStorage: typeof say = {
  where:
    'Nur auf diesem Gerät, in diesem Browser; nichts wird irgendwohin gesendet. Wer die Websitedaten im Browser löscht, löscht auch das Buch. Speichere also ab und zu eine Sicherung und bewahre sie anderswo auf.',
  twoCopies:
    'Daneben wird eine Zweitschrift geführt: Verliert der Browser eines von beiden, stellt er es aus dem anderen wieder her.',
  promises: {
    given: 'Der Browser hat versprochen, das Buch zu behalten.',
    'not given': 'Der Browser hat nicht versprochen, das Buch zu behalten.',
    'cannot be asked': 'Diesen Browser kann man nicht bitten, das Buch zu behalten.',
  },
  promiseMeans: {
    given: 'Es geht nur verloren, wenn du die Websitedaten selbst löschst.',
    'not given':
      'Der Browser darf es löschen, wenn auf dem Gerät der Platz knapp wird oder wenn die App wochenlang nicht geöffnet wurde. Vielleicht verspricht er es, wenn die App installiert ist oder länger benutzt wird.',
    'cannot be asked': 'Er darf löschen, was lange nicht benutzt wurde. Halte Sicherungen bereit.',
  },
  ask: 'Den Browser bitten, es zu behalten',

  aside: 'Beiseitegelegt',
  asideMeans: (count) =>
    `${count === 1 ? 'Dieser Datensatz ist' : 'Diese Datensätze sind'} beschädigt und nicht lesbar. Das übrige Buch ist, wie es war, und nichts überschreibt, was beiseitegelegt ist.`,
  isBack: 'Ein unversehrter ist wieder im Buch.',
  isLost: 'Ein unversehrter wurde nicht gefunden.',
  removeMeans: 'Einmal entfernt, ist er nicht mehr zu haben.',
  removeForGood: 'Endgültig entfernen',
  leave: 'Hier lassen',
  save: 'In eine Datei speichern',
  remove: 'Entfernen …',
  doneTo: (act, record) => `${act}: ${record}`,

  kinds: {
    tunes: 'Ein Stück',
    sittings: 'Eine Sitzung',
    sitting: 'Die Sitzung, die offen war',
    drills: 'Eine Übung',
    passes: 'Die Markierung eines Durchgangs',
    settings: 'Eine Einstellung',
  },
  titled: (kind, title) => `${kind}, „${title}“`,
  ofDay: (kind, day) => `${kind} vom ${day}`,
  known: (kind, id) => `${kind}, ${id}`,
};
