import type { Meter } from '../rhythm/meter';
import { flagsOf, type NoteValue } from './note-values';
import { beamsOf, tripletRuns, type RhythmColumn } from './rhythm-columns';
import { boxPath, discPath, px, type TabInk } from './tab-ink';

/** A column where it stands: `from` is where its stem leaves the note, `to` where it ends. */
export interface Stemmed {
  column: RhythmColumn;
  x: number;
  from: number;
  to: number;
}

/** Stems with their beams or flags. `unit` is the height of a notehead, or what is as large in tab. */
export function drawStems(ink: TabInk, group: readonly Stemmed[], unit: number): void {
  for (const { column, x, from, to } of group) {
    if (column.value.power > 0) ink.strokes += `M${px(x)} ${px(from)}V${px(to)}`;
  }
  if (group.length === 1) {
    for (const lone of group) drawFlags(ink, lone, unit);
    return;
  }
  const thick = Math.max(2.5, unit * 0.28);
  for (const { level, first, last, stub } of beamsOf(group.map(({ column }) => column))) {
    const start = group[first];
    const end = group[last];
    if (!start || !end) continue;
    const towards = Math.sign(start.from - start.to);
    const inner = start.to + towards * (level - 1) * thick * 1.7;
    const left = stub === 'left' ? start.x - unit * 0.7 : start.x;
    const right = stub === 'right' ? end.x + unit * 0.7 : end.x;
    ink.solid += boxPath({
      x: left - 0.75,
      y: towards < 0 ? inner - thick : inner,
      width: right - left + 1.5,
      height: thick,
    });
  }
}

function drawFlags(ink: TabInk, { column, x, from, to }: Stemmed, unit: number): void {
  const towards = Math.sign(from - to);
  for (let flag = 0; flag < flagsOf(column.value); flag += 1) {
    const y = to + towards * flag * unit * 0.45;
    const tip = `${px(unit * 0.75)} ${px(towards * unit * 1.15)}`;
    const bend = `${px(unit * 0.15)} ${px(towards * unit * 0.55)}`;
    const back = `${px(-unit * 0.05)} ${px(-towards * unit * 0.6)} ${px(-unit * 0.75)} ${px(-towards * unit * 0.65)}`;
    ink.solid += `M${px(x)} ${px(y)}q${bend} ${tip}q${back}z`;
  }
}

/** The dots of a value, `x` being the middle of the first. */
export function drawDots(ink: TabInk, { dots }: NoteValue, x: number, y: number, unit: number): void {
  for (let dot = 0; dot < dots; dot += 1) {
    ink.solid += discPath(x + dot * unit * 0.4, y, Math.max(1.4, unit * 0.13));
  }
}

/** A rest around the height `y`; `unit` is the space between two lines of a staff. */
export function drawRest(ink: TabInk, value: NoteValue, x: number, y: number, unit: number): void {
  const u = unit * 0.5;
  if (value.power <= 1) {
    const height = u * 0.8;
    ink.solid += boxPath({ x: x - u, y: value.power === 0 ? y - 2 * u : y - height, width: 2 * u, height });
    ink.strokes += `M${px(x - 1.7 * u)} ${px(value.power === 0 ? y - 2 * u : y)}h${px(3.4 * u)}`;
  } else if (value.power === 2) {
    ink.solid +=
      `M${px(x - 0.5 * u)} ${px(y - 2.4 * u)}l${px(1.2 * u)} ${px(1.5 * u)}q${px(-0.9 * u)} ${px(0.9 * u)} ${px(0.3 * u)} ${px(2.1 * u)}` +
      `q${px(-1.9 * u)} ${px(-0.5 * u)} ${px(-0.7 * u)} ${px(1.4 * u)}q${px(-2.2 * u)} ${px(-1.6 * u)} ${px(-0.2 * u)} ${px(-2.2 * u)}` +
      `l${px(-1 * u)} ${px(-1.1 * u)}q${px(1.1 * u)} ${px(-0.9 * u)} ${px(0.4 * u)} ${px(-1.7 * u)}z`;
  } else {
    const flags = flagsOf(value);
    const top = y - u * (0.4 + 0.5 * flags);
    ink.strokes += `M${px(x + 0.8 * u)} ${px(top)}L${px(x - 0.2 * u)} ${px(top + u * (1.6 + flags))}`;
    for (let flag = 0; flag < flags; flag += 1) {
      const at = top + flag * u;
      ink.solid += discPath(x - 0.7 * u, at, u * 0.34);
      ink.strokes += `M${px(x - 0.7 * u)} ${px(at + u * 0.2)}Q${px(x + 0.2 * u)} ${px(at + u * 0.5)} ${px(x + 0.8 * u - flag * 0.3 * u)} ${px(at)}`;
    }
  }
  drawDots(ink, value, x + 1.5 * u, y - u * 0.5, unit);
}

/** A 3 over or under each run of triplets, in a bracket where no beam holds it together. */
export function drawTriplets(
  ink: TabInk,
  columns: readonly RhythmColumn[],
  meter: Meter,
  at: { xOf: (column: RhythmColumn) => number; y: number; size: number },
): void {
  for (const { first, last } of tripletRuns(columns, meter)) {
    const run = columns.slice(first, last + 1);
    const [start, end] = [columns[first], columns[last]];
    if (!start || !end) continue;
    const [left, right] = [at.xOf(start), at.xOf(end)];
    const middle = (left + right) / 2;
    ink.triplets.push({ x: middle, y: at.y, text: '3' });
    const isBeamed = run.length > 1 && run.every(({ kind, value }) => kind !== 'rest' && flagsOf(value) > 0);
    if (isBeamed || run.length === 1) continue;
    const y = at.y - at.size * 0.35;
    const open = at.size * 0.5;
    ink.strokes += `M${px(left)} ${px(y - 4)}v4H${px(middle - open)}M${px(middle + open)} ${px(y)}H${px(right)}v-4`;
  }
}
