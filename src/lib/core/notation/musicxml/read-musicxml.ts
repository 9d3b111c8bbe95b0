import { say } from '../../../texts/reading-musicxml';
import { Warnings } from '../reading';
import { TITLE_MAX } from '../../tune/limits';
import { SCORE_MEASURES_MAX, type ScoresRead, type ScoreVoice } from '../score';
import { beatsFromQuarters, PartReader, type PartRead } from './read-part';
import { scoreBeat } from '../score-meter';
import { childOf, childrenOf, textAt, xmlTree, type XmlElement } from './xml-tree';

const MOST_PARTS = 100;
/** Of all parts together: a few parts more are not looked for once there are so many. */
const MOST_VOICES = 100;

/**
 * Reads a MusicXML 4.0 document (W3C Community Group Report, June 2021), by parts or by measures. One score at most. Of
 * a damaged document, the measures before the damage are read and a warning says so.
 */
export function readMusicXml(text: string): ScoresRead {
  const warnings = new Warnings();
  const { root, problem } = xmlTree(text.replace(/^\uFEFF/, ''));
  if (problem) warnings.add(problem.line, problem.column, problem.message);
  const form = root?.name;
  if (!root || (form !== 'score-partwise' && form !== 'score-timewise')) {
    if (!problem) warnings.add(1, 1, say.noScore);
    return { scores: [], warnings: warnings.list() };
  }
  const parts: PartRead[] = [];
  let voices = 0;
  for (const [id, measures] of measuresByPart(root).slice(0, MOST_PARTS)) {
    if (voices >= MOST_VOICES) break;
    const part = readPart(measures, partName(root, id), warnings);
    if (part) parts.push(part);
    voices += part?.voices.length ?? 0;
  }
  const first = parts.find(hasTab) ?? parts[0];
  if (!first) {
    if (!problem) warnings.add(root.line, root.column, say.noNotes);
    return { scores: [], warnings: warnings.list() };
  }
  const quarters = parts.find((part) => part.quarters !== null)?.quarters ?? null;
  const score = {
    ...{ number: null, order: null, meter: first.meter, tuning: first.tuning, capo: first.capo },
    title: titleOf(root),
    key: keyField(root) ?? first.key,
    tempo: quarters === null ? null : beatsFromQuarters(quarters, scoreBeat(first.meter)),
    voices: tabFirst(parts.flatMap(({ voices }) => voices)),
    warnings: warnings.list(),
  };
  return { scores: [score], warnings: [] };
}

/** Measures that were read to their end, by the part that they belong to, in the order of the document. */
function measuresByPart(root: XmlElement): [string, XmlElement[]][] {
  const byPart = new Map<string, XmlElement[]>();
  const add = (part: XmlElement, measure: XmlElement) => {
    if (!measure.closed) return;
    const id = part.attributes['id'] ?? '';
    const measures = byPart.get(id) ?? [];
    measures.push(measure);
    byPart.set(id, measures);
  };
  for (const outer of root.children) {
    if (outer.name === 'part') childrenOf(outer, 'measure').forEach((measure) => add(outer, measure));
    if (outer.name === 'measure') childrenOf(outer, 'part').forEach((part) => add(part, part));
  }
  return [...byPart];
}

function readPart(measures: readonly XmlElement[], name: string, warnings: Warnings): PartRead | null {
  const reader = new PartReader(warnings);
  const beyond = measures[SCORE_MEASURES_MAX];
  if (beyond) warnings.add(beyond.line, beyond.column, say.tooManyMeasures(SCORE_MEASURES_MAX));
  for (const measure of measures.slice(0, SCORE_MEASURES_MAX)) reader.add(measure);
  return reader.read(name);
}

function partName(root: XmlElement, id: string): string {
  const listed = childrenOf(childOf(root, 'part-list'), 'score-part');
  const part = listed.find(({ attributes }) => attributes['id'] === id);
  return (textAt(part, 'part-name') ?? id).slice(0, TITLE_MAX);
}

function titleOf(root: XmlElement): string | null {
  const title = textAt(root, 'movement-title') ?? textAt(root, 'work', 'work-title');
  return title?.slice(0, TITLE_MAX) ?? null;
}

/** The key as `writeMusicXml` keeps it: `A modal` is no key of the standard. */
function keyField(root: XmlElement): string | null {
  const fields = childrenOf(childOf(childOf(root, 'identification'), 'miscellaneous'), 'miscellaneous-field');
  const field = fields.find(({ attributes }) => attributes['name'] === 'key');
  return field?.text.trim().slice(0, 40) || null;
}

function hasTab({ voices }: PartRead): boolean {
  return voices.some(isTab);
}

function isTab({ measures }: ScoreVoice): boolean {
  return measures.some(({ notes }) => notes.some(({ fingering }) => fingering));
}

/** Of the same music on a plain staff and as tab, the tab says more. */
function tabFirst(voices: readonly ScoreVoice[]): ScoreVoice[] {
  return voices.toSorted((a, b) => Number(isTab(b)) - Number(isTab(a)));
}
