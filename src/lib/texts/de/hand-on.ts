import { inFigures } from '../figures';
import type { say } from '../hand-on';

export const handOn: typeof say = {
  page: 'Ein Stück weitergeben · Phrasewright',
  toTunes: '‹ Stücke',
  noTune: 'Dieses Stück steht nicht in deinem Buch.',
  handOn: (title) => `${title} weitergeben`,
  what: 'Das Stück mit seiner Tabulatur, seinen Fassungen und seinem Ziel, so wie es jetzt in deinem Buch steht. Nichts von dem, was du gespielt hast, geht mit, und über das Netz geht nur der Link, den du verschickst.',
  code: 'QR-Code des Links',
  codeUse: 'Die Kamera eines anderen Telefons öffnet ihn.',
  noCode: 'Dieses Stück ist zu lang für einen Code, den eine Kamera lesen kann. Der Link enthält es ganz.',
  copy: 'Link kopieren',
  copied: 'Kopiert. Füge ihn in eine Nachricht ein.',
  notCopied: 'Der Browser lässt das Kopieren nicht zu. Markiere den Link unten und kopiere ihn von Hand.',
  send: 'Link verschicken',
  sent: 'Weitergegeben.',
  notSent: 'Nicht verschickt.',
  link: 'Der Link',
  letters: (count) => `${inFigures(count)} Zeichen`,
  elsewhere:
    'Wo Phrasewright eine andere Adresse hat, füge den Link dort unter „Stück hinzufügen“, „Ein weitergegebenes Stück annehmen“ ein.',

  takePage: 'Ein weitergegebenes Stück · Phrasewright',
  handedOn: 'Ein Stück, das dir weitergegeben wurde',
  isKnown:
    'Dein Buch enthält dieses Stück. Von jedem Takt und jeder Fassung bleibt, was zuletzt geändert wurde; deine Durchgänge bleiben, wie sie sind.',
  keep: 'Dieses Stück behalten',
  keepNew: 'Das Neue daran übernehmen',
  intoBook: 'in dein Buch',
  take: 'Ein weitergegebenes Stück annehmen',
  unreadable: (reason) =>
    `Dieser Link ist nicht lesbar: ${reason}. Lass ihn dir noch einmal vollständig geben.`,
  look: 'Ansehen',

  damage: {
    long: 'er ist länger als jedes Stück',
    changed: 'ein Teil davon fehlt oder wurde unterwegs verändert',
    newer: 'er stammt von einem neueren Phrasewright: bring zuerst deines auf den neuesten Stand',
    noTune: 'er enthält kein Stück',
  },

  facts: {
    tuning: 'Stimmung',
    meter: 'Taktart',
    form: 'Form',
    goal: 'Ziel',
  },
  tuning: (name, capo) => (capo > 0 ? `${name}, Kapodaster ${capo}` : name),
  form: (form, measures) => `${form}, ${measures} ${measures === 1 ? 'Takt' : 'Takte'}`,
  goal: (tempo) => `${inFigures(tempo)} Schläge in der Minute`,
  layers: (count) => (count === 1 ? 'Fassung' : 'Fassungen'),
};
