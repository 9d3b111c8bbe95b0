import { listed, plural } from '../figures';
import type { say } from '../tune-form';

const TUNINGS: Readonly<Record<string, string>> = {
  'double C': 'Doppel-C',
  'double D': 'Doppel-D',
  'drop C': 'Drop-C',
  sawmill: 'Sawmill',
};

export const tuneForm: typeof say = {
  title: 'Titel',
  form: 'Form',
  other: 'andere',
  formInOrder: 'Form, in der Reihenfolge, in der die Teile gespielt werden',
  measures: 'Takte',
  measuresHow: 'in jedem Teil, einmal gespielt',
  measuresIn: (part) => `Takte in Teil ${part}`,
  meter: 'Taktart',
  goal: 'Ziel',
  goalIn: 'Schläge pro Minute',
  toLearn: (measures, figures) =>
    `${plural(measures, { one: '1 Takt', other: `${measures} Takte` })}, davon ${figures} zu lernen.`,
  notInFours: (parts) =>
    `${listed(parts)} ${parts.length === 1 ? 'geht' : 'gehen'} nicht in Vierern auf: ein unregelmäßiges Stück.`,
  notSameBeats: 'Nicht jeder Takt hat gleich viele Schläge: ein unregelmäßiges Stück.',
  withTab: 'Mit Tabulatur.',
  tabLater: 'Die Tabulatur kann später kommen.',
  more: 'Tonart, Kapodaster, Auftakt',
  key: 'Tonart',
  capo: 'Kapodaster',
  spike: 'Fünfte Saite höher, in Bünden',
  pickup: 'Auftakt, in Schlägen',
  pasteTab: 'Getippte Tabulatur einfügen',
  tabHow: 'Fünf Zeilen aus Strichen und Bundzahlen, mit Taktstrichen. Die Abstände geben den Rhythmus.',
  typedTab: 'Getippte Tabulatur',
  warningsMore: (count) => `Und ${count} weitere.`,
  stillHere: 'Was du eingegeben hast, ist noch da.',

  tuning: 'Stimmung',
  tuningCalled: (called) => TUNINGS[called] ?? called,
  commonTunings: 'Gebräuchliche',
  anyTuning: 'Oder fünf beliebige Töne, ab der fünften Saite',
  unreadTuning: 'Schreib fünf Töne von der fünften Saite bis zur ersten, etwa gDGBD oder f#DF#AD.',

  board: 'Die Übersicht der Takte, die daraus wird',
  tile: (measure, part, mark, beats) =>
    `Takt ${measure}, Teil ${part}${mark === null ? '' : `, Zeichen ${mark}`}${beats === null ? '' : `, ${beats}`}`,
  touchSame: (label) => `Tippe den Takt an, dem ${label} gleicht.`,
  again: (label, first) => `${label} ist noch einmal ${first}.`,
  content: (label, beats, strikes) =>
    `${label}: ${beats}` +
    (strikes === null ? '.' : `, ${plural(strikes, { one: '1 Anschlag', other: `${strikes} Anschläge` })}.`),
  sameAs: 'Gleich wie …',
  onItsOwn: 'Für sich',
  beatsIn: (label) => `Schläge in ${label}`,
  otherBeats: (one, other) => `${one} und ${other} haben nicht gleich viele Schläge.`,
  touchHow:
    'Tippe einen Takt an, um zu sagen, dass er derselbe ist wie ein anderer oder wie viele Schläge er hat.',
};
