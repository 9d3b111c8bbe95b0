import { capital, listed } from '../figures';
import type { say } from '../plan';
import { midSentence } from './mid-sentence';
import { counted, numberWord } from './number-words';

export const plan: typeof say = {
  awayWeeks: (weeks) => `Du hast seit ${counted(weeks, 'einer Woche', 'Wochen')} nicht gespielt.`,
  awayMonths: (months) => `Du hast seit ${counted(months, 'einem Monat', 'Monaten')} nicht gespielt.`,
  littleFaded: 'Verblasst ist wenig.',
  faded: (titles) =>
    titles.length === 1
      ? `${listed(titles)} ist wahrscheinlich verblasst, wie jedes Stück mit der Zeit; es ist schneller wieder da, als es gelernt war.`
      : `${listed(titles)} sind wahrscheinlich verblasst, wie alle Stücke mit der Zeit; sie sind schneller wieder da, als sie gelernt waren.`,
  manyFaded: (tunes) =>
    `${capital(numberWord(tunes))} Stücke sind wahrscheinlich verblasst, wie alle Stücke mit der Zeit; sie sind schneller wieder da, als sie gelernt waren.`,
  refreshes: 'Heute frischst du auf, was du konntest, etwas langsamer, und nichts Neues kommt dazu.',

  tiredHands:
    'Deine Hände sind müde, deshalb ist der Plan kurz und langsam. Hör auf, sobald es nicht mehr leicht geht.',
  soreHands:
    'Hör auf, wenn es wehtut, kribbelt oder taub wird. Bleibt es so, geh zu einer Ärztin oder einem Arzt. Ein freier Tag kostet wenig.',

  askedButHands: 'Deine Hände brauchen heute weniger, deshalb kommt nichts Neues mehr dazu.',
  askedEnough: (titles) =>
    `Du wolltest noch etwas Neues: ${listed(titles)} haben heute schon neue Takte, und das ist genug.`,
  askedNothingReady:
    'Du wolltest noch etwas Neues, aber kein anderes Stück und keine andere Fassung ist so weit.',
  asked: (title, passage) => `Du wolltest noch etwas Neues: ${title}, ${midSentence(passage)}.`,
  askedNoRoom: (title, passage) =>
    `Du wolltest noch etwas Neues, aber ${title}, ${midSentence(passage)}, passt nicht in die Zeit.`,

  noMeasures: 'Es hat noch keine Takte, die du spielen kannst.',
  enoughInTheMaking: (tunes) =>
    `Noch nicht begonnen: ${capital(numberWord(tunes))} Stücke sind in Arbeit, und das ist auf einmal genug.`,
  oneNewThing: (title) =>
    `Noch nicht begonnen: Am Tag kommt eine neue Sache dazu, und heute ist das ${title ?? 'ein anderes Stück'}.`,
  youSaidNotToday: 'Du hast „Heute nicht“ gesagt.',
  passTooLong: (least, minutes) =>
    `Ein Durchgang dauert ${counted(least, 'eine Minute', 'Minuten')}, und heute hast du ${numberWord(minutes)}.`,
  otherNewFirst: (title) =>
    `Noch nicht begonnen: Neue Stücke kommen eins nach dem anderen, und ${title} ist zuerst dran.`,
  begunFirst: 'Noch nicht begonnen: Heute geht vor, was schon begonnen ist.',
  otherTuning: (tuning, retuning, minutes) =>
    `Es steht in ${tuning}: Umstimmen würde ${numberWord(retuning)} der ${numberWord(minutes)} Minuten kosten.`,
  canWait: (tempo, goal, first) => {
    const at = tempo === null ? 'Es' : `Es steht bei ${tempo} von ${goal} und`;
    return `${at} kann einen Tag warten${first === null ? '' : `; ${first} bringt heute mehr`}.`;
  },
  wouldBeAPush: 'Das wäre anstrengend, und deine Hände brauchen heute weniger.',
  isFresh: (tempo, ago) => `Es sitzt bei ${tempo} und ist frisch: zuletzt ${ago} gespielt.`,
  tooLongForATurn: 'Ein Durchgang davon dauert zu lang, um einmal dranzukommen.',
};
