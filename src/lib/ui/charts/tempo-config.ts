import type { ChartConfiguration, ChartDataset, ScaleOptions } from 'chart.js';
import { color } from 'chart.js/helpers';
import { calendarTicks, tempoTicks } from '../../core/progress/calendar-ticks';
import type { TempoPicture, TempoPoint } from '../../core/progress/tempo-picture';
import type { ChartLook } from './chart-look';
import { tempoMarks } from './tempo-marks';

interface XY {
  x: number;
  y: number;
}
type Line = ChartDataset<'line', XY[]>;
export type TempoConfig = ChartConfiguration<'line', XY[]>;

/** The page margin that the chart reaches into, so that the goal line runs from edge to edge. */
export const BLEED = 16;

/** Everything that Chart.js draws of a picture; the goal line, `now` and the newest point are `tempoMarks`. */
export function tempoConfig(picture: TempoPicture, look: ChartLook): TempoConfig {
  return {
    type: 'line',
    data: { datasets: lines(picture, look) },
    options: {
      animation: false,
      responsive: true,
      maintainAspectRatio: false,
      parsing: false,
      normalized: true,
      events: [],
      layout: { padding: { left: BLEED, right: BLEED, top: 4 } },
      scales: { x: dayAxis(picture, look), y: tempoAxis(picture, look) },
      elements: { point: { radius: 0 }, line: { borderJoinStyle: 'round' } },
    },
    plugins: [tempoMarks(picture, look)],
  };
}

/** Lowest `order` on top. */
function lines({ tune, links, forecast }: TempoPicture, look: ChartLook): Line[] {
  return [
    { ...path(tune, 'tempo'), borderColor: look.ink, borderWidth: 3.5, order: 0 },
    ...links.map(({ points }): Line => ({
      ...path(points, 'tempo'),
      ...{ borderColor: look.tanEdge, backgroundColor: look.tanEdge, borderWidth: 1.75, order: 1 },
      ...(points.length === 1 ? { pointStyle: 'rect' as const, pointRadius: 3 } : {}),
    })),
    {
      ...path(forecast, 'tempo'),
      ...{ borderColor: look.tanEdge, borderWidth: 2, borderDash: [2, 5], order: 2 },
    },
    ...band(tune, look, look.tan, 3),
    ...band(forecast, look, faded(look.tan), 4),
  ];
}

function path(points: readonly TempoPoint[], of: 'tempo' | 'low' | 'high'): Line {
  return { data: points.map((point) => ({ x: point.day, y: point[of] })), fill: false };
}

function band(points: readonly TempoPoint[], look: ChartLook, tint: string, order: number): Line[] {
  const edge = { borderWidth: look.bandEdge, borderColor: look.tanEdge, order };
  return [
    { ...path(points, 'high'), ...edge, fill: '+1', backgroundColor: tint },
    { ...path(points, 'low'), ...edge },
  ];
}

/** System colours of a forced palette cannot be thinned and stay as they are. */
function faded(tint: string): string {
  const read = color(tint);
  return read.valid ? (read.alpha(0.55).rgbString() ?? tint) : tint;
}

type Axis = ScaleOptions<'linear'>;

/** Days are whole numbers on a linear axis; only its marks know the calendar. */
function dayAxis({ from, to }: TempoPicture, look: ChartLook): Axis {
  const labels = new Map<number, string>();
  return {
    type: 'linear',
    min: from,
    max: to,
    border: { display: false },
    grid: { display: false },
    ticks: { ...captions(look), align: 'start', callback: (value) => labels.get(Number(value)) ?? '' },
    afterBuildTicks(scale) {
      const most = Math.max(1, Math.floor((scale.chart.width - 4 * BLEED) / (look.size * 4.4)));
      const room = ((to - from) * look.size * 2) / Math.max(1, scale.chart.width);
      labels.clear();
      for (const { day, label } of calendarTicks(from, to - room, most)) labels.set(day, label);
      scale.ticks = [...labels.keys()].map((value) => ({ value }));
    },
  };
}

function tempoAxis({ bottom, top, goal }: TempoPicture, look: ChartLook): Axis {
  return {
    type: 'linear',
    position: 'right',
    min: bottom,
    max: top,
    border: { display: false },
    grid: { color: look.hair, drawTicks: false },
    ticks: { ...captions(look), padding: 6, callback: (value) => String(value) },
    afterBuildTicks(scale) {
      const clear = (top - bottom) * 0.07;
      const tempos = tempoTicks(bottom, top, 5).filter((tempo) => Math.abs(tempo - goal) > clear);
      scale.ticks = tempos.map((value) => ({ value }));
    },
  };
}

function captions({ inkSoft, family, size }: ChartLook) {
  return {
    color: inkSoft,
    font: { family, size, weight: 500 },
    autoSkip: false,
    maxRotation: 0,
  };
}
