import type { Score, ScoreMeasure, ScoreVoice } from './score';

/** Bounds what repeats inside a nonsensical source may ask for. */
const MOST_PLAYED = 20_000;

/**
 * The measures of a voice as they are played: indices into `voice.measures`, repeats and endings played out, at most
 * 20,000. A repeat without a beginning goes back to the last repeat's end, the last double bar or the start (ABC 2.1,
 * section 4.8); an ending lasts to the next one or to the end of the repeat (section 4.9). Where the source names its
 * parts in the order in which they are played (section 3.1.9), each part is played with its own repeats, after what
 * stands before the first part.
 */
export function playOrder({ measures }: ScoreVoice, order: Score['order']): number[] {
  const starts = measures.flatMap(({ part }, index) => (part === null ? [] : [index]));
  const first = starts[0];
  if (!order || first === undefined) return repeatsPlayed(measures, 0, measures.length);
  const blocks = new Map<string, readonly number[]>();
  for (const [place, from] of starts.entries()) {
    const name = measures[from]?.part ?? '';
    if (!blocks.has(name))
      blocks.set(name, repeatsPlayed(measures, from, starts[place + 1] ?? measures.length));
  }
  const played = repeatsPlayed(measures, 0, first);
  for (const name of order) {
    if (played.length >= MOST_PLAYED) break;
    played.push(...(blocks.get(name) ?? []));
  }
  return played.slice(0, MOST_PLAYED);
}

function repeatsPlayed(measures: readonly ScoreMeasure[], from: number, to: number): number[] {
  const endings = soundEndings(measures, from, to);
  const played: number[] = [];
  let back = from;
  let isOpened = false;
  let time = 1;
  const leaveRepeat = (next: number): void => {
    back = next;
    isOpened = false;
    time = 1;
  };
  for (let index = from; index < to && played.length < MOST_PLAYED; index += 1) {
    const measure = measures[index];
    if (!measure) break;
    if (measure.opensRepeat && !(isOpened && back === index)) {
      leaveRepeat(index);
      isOpened = true;
    }
    const group = endings[index - from];
    if (group && measure.ending && !measure.ending.includes(time)) continue;
    played.push(index);
    const times = Math.max(measure.timesPlayed, group && measure.timesPlayed > 0 ? group.last : 0);
    const isGroupOver = group !== null && group !== undefined && index === group.end - 1;
    if (time < times) {
      time += 1;
      index = back - 1;
    } else if (times > 0 || isGroupOver || (measure.endsSection && !isOpened && !group)) {
      leaveRepeat(index + 1);
    }
  }
  return played;
}

interface EndingGroup {
  /** The highest time through that any ending of the group is for. */
  last: number;
  /** The index after the group. */
  end: number;
}

/** For every measure the group of endings that it stands in; endings without any repeat sign are no endings. */
function soundEndings(measures: readonly ScoreMeasure[], from: number, to: number): (EndingGroup | null)[] {
  const groups: (EndingGroup | null)[] = [];
  for (let index = from; index < to;) {
    let end = index;
    while (end < to && measures[end]?.ending && !(end > index && measures[end]?.opensRepeat)) end += 1;
    if (end === index) {
      groups.push(null);
      index += 1;
      continue;
    }
    const run = measures.slice(index, end);
    const last = run.reduce((most, { ending }) => Math.max(most, ...(ending ?? [])), 1);
    const group = run.some(({ timesPlayed }) => timesPlayed > 0) ? { last, end } : null;
    for (const _ of run) groups.push(group);
    index = end;
  }
  return groups;
}
