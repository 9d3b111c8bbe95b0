import { xmlTree, type XmlElement } from '../../src/lib/core/notation/musicxml/xml-tree';

/**
 * What MusicXML 4.0 (W3C Music Notation Community Group, final report, June 2021; schema/musicxml.xsd) allows for the
 * elements that `writeMusicXml` uses, in our own words: children in order, attributes, text. The content of `note`, `lyric`,
 * `notations`, `fingering` and `fret` was looked up in the schema of the repository w3c/musicxml at 00dc7cc; the rest is from
 * memory. What the table does not name is an error here, though the standard may know it.
 */
interface Model {
  /** Names of children, each followed by a space, as a regular expression over the whole. */
  children?: RegExp;
  /** Text between the tags, white space at its ends taken off; without it there must be none. */
  text?: RegExp;
  attributes?: Readonly<Record<string, RegExp>>;
  required?: readonly string[];
}

const ANY = /^[^]*$/;
const POSITIVE = /^\+?0*[1-9]\d*$/;
const WHOLE = /^[-+]?\d+$/;
const COUNT = /^\+?\d+$/;
const DECIMAL = /^[-+]?(?:\d+\.?\d*|\.\d+)$/;
const ABOVE_ZERO = /^\+?(?=.*[1-9])(?:\d+\.?\d*|\.\d+)$/;
const STEP = /^[A-G]$/;
const ALTER = /^-?(?:\d+\.?\d*|\.\d+)$/;
const START_STOP = /^(?:start|stop)$/;
const PLACED = { placement: /^(?:above|below)$/ };
const words = (names: string) => new RegExp(`^(?:${names.replaceAll(' ', '|')})$`);
const TYPES = words('maxima long breve whole half quarter eighth 16th 32nd 64th 128th 256th 512th 1024th');
const KINDS = words(
  'major minor augmented diminished dominant major-seventh minor-seventh diminished-seventh augmented-seventh ' +
    'half-diminished major-minor major-sixth minor-sixth dominant-ninth major-ninth minor-ninth dominant-11th major-11th ' +
    'minor-11th dominant-13th major-13th minor-13th suspended-second suspended-fourth Neapolitan Italian French German ' +
    'pedal power Tristan other none',
);

const MODELS: Readonly<Record<string, Model>> = {
  'score-partwise': {
    children: /^(?:work )?(?:movement-number )?(?:movement-title )?(?:identification )?part-list (?:part )+$/,
    attributes: { version: /^[1-4]\.\d$/ },
  },
  'movement-title': { text: ANY },
  identification: { children: /^(?:creator )*(?:rights )*(?:encoding )?(?:source )?(?:miscellaneous )?$/ },
  miscellaneous: { children: /^(?:miscellaneous-field )*$/ },
  'miscellaneous-field': { text: ANY, attributes: { name: ANY }, required: ['name'] },
  'part-list': { children: /^(?:score-part )+$/ },
  'score-part': { children: /^part-name $/, attributes: { id: /^[A-Za-z_][\w.-]*$/ }, required: ['id'] },
  'part-name': { text: ANY },
  part: { children: /^(?:measure )+$/, attributes: { id: /^[A-Za-z_][\w.-]*$/ }, required: ['id'] },
  measure: {
    children: /^(?:(?:note|backup|forward|direction|attributes|harmony|print|sound|barline) )*$/,
    attributes: { number: ANY, implicit: /^(?:yes|no)$/ },
    required: ['number'],
  },
  attributes: {
    children: /^(?:divisions )?(?:key )*(?:time )*(?:staves )?(?:clef )*(?:staff-details )*(?:transpose )*$/,
  },
  divisions: { text: ABOVE_ZERO },
  key: { children: /^fifths (?:mode )?$/ },
  fifths: { text: WHOLE },
  mode: { text: words('major minor dorian phrygian lydian mixolydian aeolian ionian locrian none') },
  time: { children: /^(?:(?:beats beat-type )+|senza-misura )$/ },
  beats: { text: ANY },
  'beat-type': { text: ANY },
  'senza-misura': { text: ANY },
  clef: { children: /^sign (?:line )?$/ },
  sign: { text: words('G F C percussion TAB jianpu none') },
  line: { text: WHOLE },
  'staff-details': { children: /^(?:staff-lines )?(?:staff-tuning )*(?:capo )?(?:staff-size )?$/ },
  'staff-lines': { text: COUNT },
  'staff-tuning': {
    children: /^tuning-step (?:tuning-alter )?tuning-octave $/,
    attributes: { line: POSITIVE },
    required: ['line'],
  },
  'tuning-step': { text: STEP },
  'tuning-alter': { text: ALTER },
  'tuning-octave': { text: /^\d$/ },
  capo: { text: COUNT },
  note: {
    children:
      /^(?:chord )?(?:pitch|rest) duration (?:tie ){0,2}(?:voice )?(?:type )?(?:dot )*(?:accidental )?(?:time-modification )?(?:stem )?(?:notehead )?(?:staff )?(?:beam ){0,8}(?:notations )*(?:lyric )*$/,
  },
  chord: {},
  rest: {},
  pitch: { children: /^step (?:alter )?octave $/ },
  step: { text: STEP },
  alter: { text: ALTER },
  octave: { text: /^\d$/ },
  duration: { text: ABOVE_ZERO },
  tie: { attributes: { type: START_STOP }, required: ['type'] },
  voice: { text: ANY },
  type: { text: TYPES },
  dot: {},
  'time-modification': { children: /^actual-notes normal-notes (?:normal-type (?:normal-dot )*)?$/ },
  'actual-notes': { text: COUNT },
  'normal-notes': { text: COUNT },
  notehead: { text: words('normal x slash none'), attributes: { parentheses: /^(?:yes|no)$/ } },
  notations: { children: /^(?:(?:tied|slide|technical|articulations|arpeggiate) )*$/ },
  tied: { attributes: { type: words('start stop continue let-ring') }, required: ['type'] },
  slide: { text: ANY, attributes: { type: START_STOP }, required: ['type'] },
  technical: {
    children: /^(?:(?:fingering|pluck|fret|string|hammer-on|pull-off|other-technical) )*$/,
  },
  fingering: { text: ANY },
  pluck: { text: ANY },
  fret: { text: COUNT },
  string: { text: POSITIVE },
  'hammer-on': { text: ANY, attributes: { type: START_STOP }, required: ['type'] },
  'pull-off': { text: ANY, attributes: { type: START_STOP }, required: ['type'] },
  'other-technical': { text: ANY },
  articulations: { children: /^(?:accent )*$/ },
  accent: {},
  arpeggiate: {},
  lyric: { children: /^(?:syllabic )?text $/ },
  syllabic: { text: words('single begin end middle') },
  text: { text: ANY },
  backup: { children: /^duration $/ },
  forward: { children: /^duration (?:voice )?(?:staff )?$/ },
  direction: {
    children: /^(?:direction-type )+(?:offset )?(?:voice )?(?:staff )?(?:sound )?$/,
    attributes: PLACED,
  },
  'direction-type': { children: /^(?:(?:rehearsal )+|(?:words )+|metronome )$/ },
  rehearsal: { text: ANY },
  words: { text: ANY },
  metronome: { children: /^beat-unit (?:beat-unit-dot )*per-minute $/ },
  'beat-unit': { text: TYPES },
  'per-minute': { text: ANY },
  sound: { attributes: { tempo: /^(?:\d+\.?\d*|\.\d+)$/ } },
  offset: { text: DECIMAL },
  harmony: { children: /^(?:root|function) kind (?:inversion )?(?:bass )?(?:degree )*(?:offset )?$/ },
  root: { children: /^root-step (?:root-alter )?$/ },
  'root-step': { text: STEP },
  'root-alter': { text: ALTER },
  function: { text: ANY },
  kind: { text: KINDS, attributes: { text: ANY } },
  bass: { children: /^bass-step (?:bass-alter )?$/ },
  'bass-step': { text: STEP },
  'bass-alter': { text: ALTER },
  barline: {
    children: /^(?:bar-style )?(?:ending )?(?:repeat )?$/,
    attributes: { location: words('left right middle') },
  },
  'bar-style': {
    text: words(
      'regular dotted dashed heavy light-light light-heavy heavy-light heavy-heavy tick short none',
    ),
  },
  ending: {
    attributes: {
      number: /^(?: *|[1-9]\d*(?:, ?[1-9]\d*)*)$/,
      type: words('start stop discontinue'),
    },
    required: ['number', 'type'],
    text: ANY,
  },
  repeat: {
    attributes: { direction: words('backward forward'), times: COUNT },
    required: ['direction'],
  },
};

/** What the standard does not allow in a document, each with its element; none in a valid one. */
export function modelFaults(text: string): string[] {
  const { root, problem } = xmlTree(text);
  if (!root || problem) return [problem?.message ?? 'empty'];
  const faults = root.name === 'score-partwise' ? [] : [`the root is ${root.name}`];
  const parts = root.children.filter(({ name }) => name === 'part').map(({ attributes }) => attributes['id']);
  const listed = root.children
    .filter(({ name }) => name === 'part-list')
    .flatMap(({ children }) => children.map(({ attributes }) => attributes['id']));
  // a part's id is an IDREF to a score-part of the list
  if (parts.join() !== listed.join())
    faults.push(`parts ${parts.join()} are not those listed, ${listed.join()}`);
  check(root, faults);
  return [...new Set(faults)];
}

function check(element: XmlElement, faults: string[]): void {
  const { name, attributes, children } = element;
  const model = MODELS[name];
  if (!model) return void faults.push(`${name} is not in the table`);
  const names = children.map((child) => `${child.name} `).join('');
  if (!(model.children ?? /^$/).test(names)) faults.push(`${name} holds ${names}`);
  const own = element.text.trim();
  if (!(model.text ?? /^$/).test(own)) faults.push(`${name} says "${own}"`);
  for (const [key, value] of Object.entries(attributes)) {
    if (!model.attributes?.[key]?.test(value)) faults.push(`${name} has ${key}="${value}"`);
  }
  for (const key of model.required ?? []) {
    if (attributes[key] === undefined) faults.push(`${name} has no ${key}`);
  }
  for (const child of children) check(child, faults);
}
