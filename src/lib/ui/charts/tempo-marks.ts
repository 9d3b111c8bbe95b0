import type { Chart, Plugin } from 'chart.js';
import type { TempoPicture } from '../../core/progress/tempo-picture';
import { say } from '../../texts/tempo-chart';
import type { ChartLook } from './chart-look';

const DOT = 10;

/** The goal line from edge to edge with its label, the line at now, and the square at the newest point. */
export function tempoMarks(picture: TempoPicture, look: ChartLook): Plugin<'line'> {
  return {
    id: 'tempo-marks',
    beforeDatasetsDraw: (chart) => {
      drawNow(chart, picture, look);
    },
    afterDatasetsDraw: (chart) => {
      drawGoal(chart, picture, look);
      drawNewest(chart, picture, look);
    },
  };
}

interface Axes {
  x(day: number): number;
  y(tempo: number): number;
}

function axesOf(chart: Chart): Axes {
  const { x, y } = chart.scales;
  return {
    x: (day) => x?.getPixelForValue(day) ?? 0,
    y: (tempo) => y?.getPixelForValue(tempo) ?? 0,
  };
}

function drawNow(chart: Chart, { today, from, to }: TempoPicture, look: ChartLook): void {
  const { ctx, chartArea } = chart;
  const x = Math.round(axesOf(chart).x(today)) + 0.5;
  ctx.save();
  ctx.strokeStyle = look.rule;
  ctx.lineWidth = 1.5;
  ctx.setLineDash([3, 3]);
  ctx.beginPath();
  ctx.moveTo(x, chartArea.top);
  ctx.lineTo(x, chartArea.bottom);
  ctx.stroke();
  const isLate = today - from > (to - from) * 0.85;
  ctx.font = `600 ${look.size}px ${look.family}`;
  ctx.fillStyle = look.inkSoft;
  ctx.textAlign = isLate ? 'right' : 'left';
  ctx.textBaseline = 'alphabetic';
  ctx.fillText(say.now, x + (isLate ? -6 : 6), chartArea.bottom - 5);
  ctx.restore();
}

function drawGoal(chart: Chart, picture: TempoPicture, look: ChartLook): void {
  const { ctx, chartArea, width } = chart;
  const y = Math.round(axesOf(chart).y(picture.goal));
  ctx.save();
  ctx.fillStyle = look.goal;
  ctx.fillRect(0, y - look.goalWidth / 2, width, look.goalWidth);
  const label = say.goal(Math.round(picture.goal));
  ctx.font = `600 ${look.size + 1}px ${look.family}`;
  ctx.textBaseline = 'middle';
  const plate = ctx.measureText(label).width + 12;
  const left = freePlace(chart, picture, plate);
  if (left !== null) {
    ctx.fillStyle = look.skin;
    ctx.fillRect(left, y - look.size, plate, look.size * 2);
  }
  ctx.fillStyle = look.ink;
  ctx.fillText(label, (left ?? chartArea.left) + 6, left === null ? y - look.size * 0.9 : y + 1);
  ctx.restore();
}

/**
 * Where the label may break the goal line without hiding what is drawn: at the left, else at the right. `null`:
 * nowhere, it stands above the line.
 */
function freePlace(chart: Chart, picture: TempoPicture, plate: number): number | null {
  const { left, right } = chart.chartArea;
  const axes = axesOf(chart);
  return [left, right - plate].find((place) => !isCrowded(axes, picture, place, place + plate)) ?? null;
}

function isCrowded(axes: Axes, picture: TempoPicture, left: number, right: number): boolean {
  const { tune, links, forecast, goal, bottom, top } = picture;
  const near = (top - bottom) * 0.08;
  const lines = links.flatMap(({ points }) =>
    points.map(({ day, tempo }) => ({ day, low: tempo, high: tempo })),
  );
  return [...tune, ...forecast, ...lines].some(({ day, low, high }) => {
    const x = axes.x(day);
    return x > left - 16 && x < right + 16 && high > goal - near && low < goal + near;
  });
}

function drawNewest(chart: Chart, { tune }: TempoPicture, look: ChartLook): void {
  const newest = tune.at(-1);
  if (!newest) return;
  const { ctx } = chart;
  const { x, y } = axesOf(chart);
  const [left, middle] = [Math.round(x(newest.day)), Math.round(y(newest.tempo))];
  ctx.save();
  if (tune.length === 1) {
    // a single day has no band yet: its interval stands as a bar
    ctx.fillStyle = look.tan;
    ctx.fillRect(left - DOT / 2, y(newest.high), DOT, y(newest.low) - y(newest.high));
  }
  ctx.fillStyle = look.ink;
  ctx.fillRect(left - DOT / 2, middle - DOT / 2, DOT, DOT);
  ctx.restore();
}
