import { scoreBeat } from '../score-meter';
import type { Score, ScoreMeasure, ScoreMeter } from '../score';
import { NO_KEY, readKey, type AbcKey } from './abc-key';
import { escapedText } from './abc-source';
import { wordsLine } from './abc-words';
import { writtenNotes } from './write-abc-notes';

const PER_LINE = 4;

/**
 * A score's first voice as ABC 2.1: repeats and endings as signs, parts as `P:`, chord symbols over their notes and words under them. Where
 * the key is none that ABC knows, every alteration is written out (`K:none`).
 */
export function writeAbc(score: Score): string {
  const [voice] = score.voices;
  const measures = voice?.measures ?? [];
  const known = score.key === null ? null : readKey(score.key, NO_KEY);
  const key = known?.name ? known : NO_KEY;
  const [count, unit] = scoreBeat(score.meter);
  const header = [
    `X:${score.number ?? 1}`,
    `T:${oneLine(score.title ?? '')}`,
    `M:${meterText(score.meter)}`,
    'L:1/8',
    ...(score.tempo === null ? [] : [`Q:${count}/${unit}=${Math.round(score.tempo)}`]),
    ...(score.order ? [`P:${score.order.join('')}`] : []),
    `K:${known?.name ? oneLine(score.key ?? '') : 'none'}`,
  ];
  return [...header, ...musicLines(measures, score.meter, key), ''].join('\n');
}

function oneLine(text: string): string {
  return escapedText(text).trim();
}

function meterText(meter: ScoreMeter | null): string {
  return meter ? `${meter.count}/${meter.unit}` : 'none';
}

function musicLines(measures: readonly ScoreMeasure[], first: ScoreMeter | null, key: AbcKey): string[] {
  const lines: string[] = [];
  let meter = first;
  let line = '';
  let onLine = 0;
  let words: (string | null)[] = [];
  const flush = () => {
    if (line.trim() !== '') lines.push(line.trim());
    const sung = wordsLine(words);
    if (sung !== null) lines.push(sung);
    [line, onLine, words] = ['', 0, []];
  };
  for (const [index, measure] of measures.entries()) {
    if (measure.part !== null) {
      flush();
      lines.push(`P:${oneLine(measure.part)}`);
    }
    if (measure.opensRepeat) line += `|${':'.repeat(timesOf(measures, index) - 1)}`;
    const ending = measure.ending?.join(',') ?? null;
    const before = measures[index - 1];
    if (ending && (ending !== before?.ending?.join(',') || before.timesPlayed > 0)) line += `[${ending} `;
    const next = measure.meter;
    if (next && (next.count !== meter?.count || next.unit !== meter.unit)) {
      line += `[M:${meterText(next)}]`;
      meter = next;
    }
    const written = writtenNotes(measure, measures[index + 1], key);
    words.push(...written.words);
    line += `${written.music} ${barAfter(measure, index === measures.length - 1)} `;
    onLine += 1;
    if (onLine === PER_LINE || measure.endsSection || measure.timesPlayed > 0) flush();
  }
  flush();
  return lines;
}

/** How often the repeat is played that begins at a measure. */
function timesOf(measures: readonly ScoreMeasure[], from: number): number {
  for (let index = from; index < measures.length; index += 1) {
    const times = measures[index]?.timesPlayed ?? 0;
    if (times > 0) return Math.max(2, times);
    if (index > from && measures[index]?.opensRepeat) break;
  }
  return 2;
}

function barAfter({ timesPlayed, endsSection }: ScoreMeasure, isLast: boolean): string {
  if (timesPlayed > 0) return `${':'.repeat(Math.max(1, timesPlayed - 1))}|`;
  return isLast ? '|]' : endsSection ? '||' : '|';
}
