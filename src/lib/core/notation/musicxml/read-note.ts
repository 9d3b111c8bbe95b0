import { FRET_MAX } from '../../tune/limits';
import { FINGERS, TECHNIQUES, type Technique } from '../../tune/strike';
import type { StringNumber } from '../../tune/tuning';
import type { Fingering } from '../score';
import { at, childOf, childrenOf, numberAt, textAt, type XmlElement } from './xml-tree';

const STEPS: Record<string, number> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

/** MIDI number of `<step>`, `<alter>` and `<octave>`, or of those with a prefix (`tuning-step`); `null` when there is none. */
export function pitchOf(element: XmlElement | undefined, prefix = ''): number | null {
  const step = STEPS[textAt(element, `${prefix}step`) ?? ''];
  const octave = numberAt(element, `${prefix}octave`);
  if (step === undefined || octave === null) return null;
  const pitch = Math.round(12 * (octave + 1) + step + (numberAt(element, `${prefix}alter`) ?? 0));
  return pitch >= 0 && pitch <= 127 ? pitch : null;
}

const typed = (elements: readonly (XmlElement | undefined)[], type: string): boolean =>
  elements.some((element) => element?.attributes['type'] === type);

/** Held over from the note before: `<tie>` says how it sounds, `<tied>` how it is drawn; files often have one of the two. */
export function isTied(note: XmlElement): boolean {
  const drawn = childrenOf(note, 'notations').flatMap((notations) => childrenOf(notations, 'tied'));
  return typed([...childrenOf(note, 'tie'), ...drawn], 'stop');
}

/**
 * What the marks of the standard say, where nothing names the technique. `hammer-on`, `pull-off` and `slide` are
 * begun on one note and end on the one that they sound. `arpeggiate` is a chord struck string after string: a brush.
 * `pluck` is the plucking hand's finger, `T` the thumb, which in this style sounds the short string (the drone) or drops
 * to a long one; the open short string alone is a drone too (common practice).
 */
export function impliedTechnique(marks: {
  ends: 'hammer-on' | 'pull-off' | 'slide' | null;
  arpeggiated: boolean;
  thumb: boolean;
  string: StringNumber;
  fret: number;
}): Technique {
  if (marks.ends) return marks.ends;
  if (marks.arpeggiated) return 'brush';
  if (marks.string === 5 && marks.fret === 0) return 'drone';
  return marks.thumb ? 'drop-thumb' : 'strike';
}

/** The fingering of a note on a five-string tab; `null` when it has none. */
export function fingeringOf(note: XmlElement): Fingering | null {
  const notations = childrenOf(note, 'notations');
  const marks = notations.flatMap((one) => childrenOf(one, 'technical')).flatMap(({ children }) => children);
  const mark = (name: string) => marks.find((element) => element.name === name);
  const string = Number(mark('string')?.text.trim() || NaN);
  const fret = Number(mark('fret')?.text.trim() || NaN);
  if (!isString(string) || !Number.isInteger(fret) || fret < 0 || fret > FRET_MAX) return null;
  const ended = (['hammer-on', 'pull-off'] as const).find((name) =>
    typed(
      marks.filter((element) => element.name === name),
      'stop',
    ),
  );
  const slid = typed(
    notations.flatMap((one) => childrenOf(one, 'slide')),
    'stop',
  );
  const named = TECHNIQUES.find((name) =>
    marks.some(({ name: tag, text }) => tag === 'other-technical' && text.trim() === name),
  );
  const implied = impliedTechnique({
    ends: ended ?? (slid ? 'slide' : null),
    arpeggiated: notations.some((one) => childOf(one, 'arpeggiate')),
    thumb: /^[Tt]$/.test(mark('pluck')?.text.trim() ?? ''),
    string,
    fret,
  });
  const finger = FINGERS.find((one) => String(one) === mark('fingering')?.text.trim());
  // the standard has no ghost note of its own; parentheses around the head are how one is drawn (common practice)
  const ghost = childOf(note, 'notehead')?.attributes['parentheses'] === 'yes';
  const accent = notations.some((one) => at(one, 'articulations', 'accent'));
  return {
    ...{ string, fret, technique: isTied(note) ? 'tie' : (named ?? implied) },
    ...(finger && { finger }),
    ...(accent ? { weight: 'accent' } : ghost && { weight: 'ghost' }),
  };
}

function isString(value: number): value is StringNumber {
  return [1, 2, 3, 4, 5].includes(value);
}
