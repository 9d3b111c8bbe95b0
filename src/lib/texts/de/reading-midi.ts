import { inFigures } from '../figures';
import type { say } from '../reading-midi';

export const readingMidi: typeof say = {
  noMidi: 'Das ist keine MIDI-Datei. Nichts wurde gelesen.',
  tooShort: 'Diese MIDI-Datei bricht in den ersten Bytes ab. Nichts wurde gelesen.',
  filmFrames:
    'Diese MIDI-Datei zählt Filmbilder statt Schläge und hat deshalb keine Takte. Nichts wurde gelesen.',
  noBeat: 'Diese MIDI-Datei nennt keine Länge für einen Schlag. Nichts wurde gelesen.',
  noNotes: 'In dieser MIDI-Datei sind keine Noten. Nichts wurde gelesen.',
  tooManyVoices: (found, most) =>
    `Die Datei hat ${inFigures(found)} Stimmen; die nach den ersten ${most} sind ausgelassen.`,

  breaksOff: 'die Datei bricht hier ab',
  trackTooLong: 'diese Spur ist zu lang; der Rest ist ausgelassen',
  noEvent: 'in einer Spur steht ein Byte, das kein Ereignis ist; der Rest der Spur ist ausgelassen',
  noMeter: (meter) => `die Datei nennt keine Taktart; als ${meter} gelesen`,
  tooManyMeasures: (most) => `mehr als ${inFigures(most)} Takte; was danach kommt, ist ausgelassen`,
  tooManyNotes: (most) => `mehr als ${inFigures(most)} Noten; der Rest ist ausgelassen`,
  silentMeasures: (count) =>
    count === 1
      ? 'der erste Takt ist stumm; ausgelassen'
      : `die ersten ${inFigures(count)} Takte sind stumm; ausgelassen`,
  readAsPickup: 'der erste Takt beginnt mit Stille; was in ihm klingt, ist als Auftakt gelesen',
  moved: (count, percent) =>
    count === 1
      ? `eine Note ist auf das nächste Sechzehntel oder die nächste Triole gerückt, um ${percent} % einer Viertelnote`
      : `${inFigures(count)} Noten sind auf das nächste Sechzehntel oder die nächste Triole gerückt, am weitesten um ${percent} % einer Viertelnote`,
  tempoChanges: (least, greatest, kept) =>
    `das Tempo wechselt zwischen ${least} und ${greatest} Schlägen in der Minute; ${kept}, das der ersten Note, wird behalten`,

  track: (number) => `Spur ${number}`,
  channel: (track, number) => `${track}, Kanal ${number}`,
};
