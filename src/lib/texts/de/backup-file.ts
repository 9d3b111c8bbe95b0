import type { say } from '../backup-file';
import { inFigures, listed } from '../figures';

function at(line?: number, column?: number): string {
  if (line === undefined) return '';
  return column === undefined ? ` in Zeile ${line}` : ` in Zeile ${line}, Spalte ${column}`;
}

const count = (number: number, one: string, many: string): string =>
  `${inFigures(number)} ${number === 1 ? one : many}`;

export const backupFile: typeof say = {
  tooDeep: 'die Datei ist zu tief verschachtelt für eine Sicherung',
  notField: (name) => `${name} ist kein Feld einer Sicherung`,
  notOurs: (format) => `die Datei ist keine Sicherung von Phrasewright: ihr Format ist nicht „${format}“`,
  otherKind: 'die Datei ist keine Sicherung von Phrasewright: die enden auf .json.gz oder .json',
  newer: (version, ours) =>
    `die Sicherung hat die Version ${version}, und diese App liest Version ${ours}: bring zuerst die App auf den neuesten Stand`,
  notVersion: (value) => `${value} ist keine Version des Sicherungsformats`,
  checksum:
    'die Prüfsumme stimmt nicht: die Datei wurde nach dem Schreiben verändert oder hat einen Teil verloren',
  counts: (value) => `${value} stimmt nicht mit dem Inhalt der Datei überein`,

  empty: 'die Datei ist leer',
  tooLong: (characters) => `die Datei ist länger als ${characters} Zeichen`,
  longLine: 'die Datei hat eine zu lange Zeile',
  endsTooSoon: (line, column) => `die Datei endet zu früh${at(line, column)}`,
  notJson: (line, column) => `die Datei ist kein JSON${at(line, column)}`,
  otherLayout: (line) => `die Datei ist nicht wie eine Sicherung aufgebaut${at(line)}`,
  emptyLine: (line) => `Zeile ${line} ist leer`,
  otherLine: (line) => `Zeile ${line} ist nicht wie in einer Sicherung aufgebaut`,
  packedDamage: 'die gepackte Datei ist beschädigt oder wurde abgeschnitten',
  notHandedOut: 'das Gerät hat die Datei nicht herausgegeben: wähle sie noch einmal aus',
  changedSince: 'Die Datei wurde nach dem Lesen verändert. Wähle sie noch einmal aus.',

  unsaved: (sittings, tunes, hasBackup) => {
    const both = [
      ...(sittings > 0 ? [count(sittings, 'Sitzung', 'Sitzungen')] : []),
      ...(tunes > 0 ? [count(tunes, 'Stück', 'Stücke')] : []),
    ];
    return `${listed(both)} ${hasBackup ? 'seit der letzten Sicherung' : 'noch in keiner Sicherung'}`;
  },
  goneTune: 'Ein Stück, das nicht mehr im Buch steht',
};
