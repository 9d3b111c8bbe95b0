import type { say } from '../settings-drill';
import { numberWord } from './number-words';

export const settingsDrill: typeof say = {
  breath: 'Atempause nach einem Durchgang',
  breaths: { '1': 'ein Takt', '2': 'zwei', '4': 'vier', wait: 'auf mich warten' },
  breathsSpoken: { '1': 'ein Takt', '2': 'zwei Takte', '4': 'vier Takte', wait: 'auf mich warten' },
  breathWaits: 'Der Klick wartet, bis du den Durchgang markiert hast.',
  breathMeans: 'Die Stille, in der du den Durchgang markierst.',
  countIn: 'Einzähler',
  countIns: { '1': 'ein Takt', '2': 'zwei Takte' },
  climb: 'Steigerung des Tempos',
  climbs: { steady: 'stetig', alternating: 'wechselnd', 'by hand': 'von Hand' },
  climbMeans: {
    steady: 'Nach sauberen Durchgängen etwas schneller, nach einem Fehlversuch etwas langsamer.',
    alternating: 'Ein bequemer Durchgang, dann einer nahe am Ziel, und wieder zurück.',
    'by hand': 'Das Tempo ändert sich nur, wenn du es änderst.',
  },
  climbIsThumb: 'Keine Abfolge von Tempos ist nachweislich die beste; dies ist eine Faustregel.',
  handful: 'Vier in Folge',
  handfulMeans: (passes) =>
    `In kurzen Passagen laufen ${numberWord(passes)} Durchgänge ohne Halt durch, mit einer Atempause nach dem letzten. So verlassen deine Hände die Saiten nur ein Viertel so oft.`,
  unmarked: 'Nicht markiert zählt als sauber',
  unmarkedMeans:
    'An: Tippe nur, wenn etwas danebenging. Aus: Ein Durchgang, den du nicht markierst, zählt nicht.',
  bands: 'Drei Felder',
  bandsMean:
    'In der Atempause teilt sich die Fläche in sauber, gestolpert und abgebrochen: einmal tippen, ein Wort.',
  hideTab: 'Tabulatur nach einem Blick verdecken',
  hideTabMeans:
    'Ist eine Passage nicht mehr neu, wird ihre Tabulatur verdeckt, sobald der Einzähler beginnt. Zum Spicken halten.',
};
