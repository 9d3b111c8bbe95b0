import { inFigures } from './figures';
import { spoken } from './spoken';

/** A tune on its way from one book to another: the link that is handed on, and what is taken from one. */
export const say = spoken('handOn', {
  page: 'Hand on a tune · Phrasewright',
  toTunes: '‹ Tunes',
  noTune: 'No such tune in this book.',
  handOn: (title: string) => `Hand on ${title}`,
  what: 'The tune with its tab, its layers and its goal, as it stands on your board. Nothing of what you played goes with it, and nothing goes over the network but the link that you send.',
  code: 'QR code of the link',
  codeUse: 'The camera of another phone opens it.',
  noCode: 'This tune is too long for a code that a camera can read. The link carries it whole.',
  copy: 'Copy the link',
  copied: 'Copied. Paste it into a message.',
  notCopied: 'The browser does not let it be copied. Mark the link below and copy it by hand.',
  send: 'Send the link',
  sent: 'Handed on.',
  notSent: 'Not sent.',
  link: 'The link',
  letters: (count: number) => `${inFigures(count)} letters`,
  elsewhere:
    'Where Phrasewright has another address, paste the link there under “Add a tune”, “Take one that was handed on”.',

  takePage: 'A tune handed on · Phrasewright',
  handedOn: 'A tune handed on to you',
  isKnown:
    'Your book holds this tune. Of each measure and layer the one that was changed last is kept; your passes stay as they are.',
  keep: 'Keep this tune',
  keepNew: 'Take what is new in it',
  intoBook: 'into your book',
  take: 'Take a tune that was handed on',
  unreadable: (reason: string) => `This link cannot be read: ${reason}. Ask for it again, whole.`,
  look: 'Look at it',

  /** Why a link cannot be read, within the sentence above. */
  damage: {
    long: 'it is longer than any tune',
    changed: 'a part of it is missing or was changed on the way',
    newer: 'it was made by a newer Phrasewright: update this one first',
    noTune: 'it holds no tune',
  },

  facts: {
    tuning: 'Tuning',
    meter: 'Meter',
    form: 'Form',
    goal: 'Goal',
  },
  tuning: (name: string, capo: number) => (capo > 0 ? `${name}, capo ${capo}` : name),
  form: (form: string, measures: number) => `${form}, ${measures} ${measures === 1 ? 'measure' : 'measures'}`,
  goal: (tempo: number) => `${inFigures(tempo)} beats a minute`,
  layers: (count: number): string => (count === 1 ? 'Layer' : 'Layers'),
});
