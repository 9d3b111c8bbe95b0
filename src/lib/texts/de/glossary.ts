import type { say } from '../glossary';

export const glossary: typeof say = {
  title: 'Wörter · Phrasewright',
  back: '‹ Einstellungen',
  heading: 'Wörter',
  words: {
    measure: {
      word: 'Takt',
      meaning: 'Was zwischen zwei Taktstrichen steht. Das Stück wird Takt für Takt gelernt.',
    },
    measuresToLearn: {
      word: 'Takte zu lernen',
      meaning:
        'Ein Stück enthält weniger verschiedene Takte, als es Takte hat: Gleiche tragen dasselbe Zeichen und werden nur einmal gelernt.',
    },
    seam: {
      word: 'Übergang',
      meaning:
        'Die Stelle, an der zwei benachbarte Takte zusammenkommen: vom letzten Schlag des einen in den ersten Schlag des nächsten.',
    },
    part: {
      word: 'Teil',
      meaning:
        'Ein Abschnitt des Stücks mit einem Buchstaben. In der Form AABB wird Teil A zweimal gespielt, dann Teil B zweimal.',
    },
    pickup: { word: 'Auftakt', meaning: 'Die Noten vor dem ersten vollen Takt.' },
    layer: {
      word: 'Fassung',
      meaning:
        'Eine Stufe in der Bearbeitung des Stücks: zuerst schlicht, dann bringt jede Fassung eine Technik dazu und ändert nur einige Takte.',
    },
    passage: {
      word: 'Passage',
      meaning: 'Alles, was sich üben lässt: ein Takt, ein Übergang, eine Phrase, ein Teil, das ganze Stück.',
    },
    pass: {
      word: 'Durchgang',
      meaning: 'Eine Passage einmal durchgespielt. Der Durchgang war sauber, gestolpert oder abgebrochen.',
    },
    drill: { word: 'Übung', meaning: 'Eine Folge von Durchgängen mit einer Passage.' },
    sitting: { word: 'Sitzung', meaning: 'Einmal üben, vom Öffnen bis zum Schließen.' },
    breath: {
      word: 'Atempause',
      meaning: 'Der stille Takt nach einem Durchgang, in dem er markiert wird.',
    },
    peek: {
      word: 'Spicken',
      meaning:
        'Die verdeckte Tabulatur kurz aufdecken. Ein Durchgang, in dem du spickst, ist nicht auswendig.',
    },
    climb: {
      word: 'Steigerung',
      meaning: 'Der Weg der Tempos durch eine Übung, von einem bequemen Tempo aufwärts.',
    },
    settledTempo: {
      word: 'Gefestigtes Tempo',
      meaning:
        'Das Tempo, bei dem eine Passage 17 von 20 Malen sauber gelingt. Es ist geschätzt, deshalb steht dabei, wie weit es danebenliegen kann.',
    },
    goalTempo: {
      word: 'Zieltempo',
      meaning: 'Wohin das Stück soll. Das Tempo des Stücks selbst ist das seiner langsamsten Passage.',
    },
    rusty: {
      word: 'Eingerostet',
      meaning: 'Seit dem letzten Spielen wahrscheinlich verblasst.',
    },
    drone: { word: 'Bordun', meaning: 'Die kurze fünfte Saite, die der Daumen anschlägt.' },
    rightHand: {
      word: 'Anschlag, Brush, Drop-Thumb',
      meaning:
        'Die rechte Hand: Ein Finger schlägt eine Saite abwärts an; er streicht über mehrere zugleich; der Daumen geht hinunter auf eine längere Saite.',
    },
    leftHand: {
      word: 'Hammer-on, Pull-off, Slide',
      meaning:
        'Die linke Hand bringt einen Ton ohne Anschlag zum Klingen: Ein Finger schlägt auf, zupft beim Abheben oder rutscht auf der Saite weiter.',
    },
    book: {
      word: 'Buch',
      meaning:
        'Alles, was du hier aufbewahrst: Stücke, Sitzungen, Durchgänge, Einstellungen. Eine Sicherung enthält ein Buch.',
    },
  },
};
