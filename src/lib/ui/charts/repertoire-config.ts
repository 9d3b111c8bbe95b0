import type { Chart, ChartConfiguration, ChartDataset, Plugin } from 'chart.js';
import type { RepertoireMonth } from '../../core/progress/repertoire-months';
import { shortMonth } from '../../core/time/date-words';
import type { ChartLook } from './chart-look';

export type RepertoireConfig = ChartConfiguration<'bar', number[], string>;

/** A book of two tunes must not fill the chart: its top stands for so many at least. */
const TUNES_LEAST = 5;
/** Pixels of a column at the most. */
const COLUMN_MOST = 48;

/** Columns of tunes: at goal tempo full at the foot, then growing, then rusty under its grain. */
export function repertoireConfig(months: readonly RepertoireMonth[], look: ChartLook): RepertoireConfig {
  const most = Math.max(...months.map(({ atGoal, growing, rusty }) => atGoal + growing + rusty));
  return {
    type: 'bar',
    data: {
      labels: months.map(({ day }) => shortMonth(day)),
      datasets: [
        stack(months, 'atGoal', look.tanEdge, look),
        stack(months, 'growing', look.tan, look),
        stack(months, 'rusty', grained(look), look),
      ],
    },
    options: {
      animation: false,
      responsive: true,
      maintainAspectRatio: false,
      events: [],
      layout: { padding: { top: 4 } },
      scales: {
        x: monthAxis(months, look),
        y: { stacked: true, display: false, min: 0, max: Math.max(TUNES_LEAST, most) },
      },
    },
    plugins: [counts(months, look)],
  };
}

type Axis = NonNullable<NonNullable<RepertoireConfig['options']>['scales']>['x'];

function monthAxis(months: readonly RepertoireMonth[], look: ChartLook): Axis {
  return {
    stacked: true,
    border: { color: look.ink, width: 2 },
    grid: { display: false },
    ticks: {
      color: look.inkSoft,
      font: { family: look.family, size: look.size, weight: 500 },
      ...{ autoSkip: false, maxRotation: 0 },
      callback(_, at) {
        // where twelve names do not fit beside each other every second month is named, the newest always
        const every = Math.max(1, Math.ceil((months.length * look.size * 2.7) / this.chart.width));
        const month = (months.length - 1 - at) % every === 0 ? months[at] : undefined;
        return month ? shortMonth(month.day) : '';
      },
    },
  };
}

type Stand = 'atGoal' | 'growing' | 'rusty';

function stack(
  months: readonly RepertoireMonth[],
  stand: Stand,
  backgroundColor: string | CanvasPattern,
  { tanEdge }: ChartLook,
): ChartDataset<'bar', number[]> {
  return {
    data: months.map((month) => month[stand]),
    ...{ backgroundColor, borderColor: tanEdge, borderWidth: 1.5, borderSkipped: false },
    ...{ maxBarThickness: COLUMN_MOST, categoryPercentage: 0.9, barPercentage: 0.9 },
  };
}

/** Lines of wood grain on a square that can be laid edge to edge, in pixels of the page. */
const GRAIN = { side: 24, waves: [3, 9, 15, 21] };

function grained({ skin, grain }: ChartLook): string | CanvasPattern {
  const { side, waves } = GRAIN;
  const scale = devicePixelRatio;
  const paper = new OffscreenCanvas(side * scale, side * scale);
  const context = paper.getContext('2d');
  if (!context) return skin;
  context.scale(scale, scale);
  context.fillStyle = skin;
  context.fillRect(0, 0, side, side);
  context.strokeStyle = grain;
  context.lineWidth = 1.5;
  for (const y of waves) {
    context.beginPath();
    context.moveTo(0, y);
    context.bezierCurveTo(side / 3, y - 3, (2 * side) / 3, y + 3, side, y);
    context.stroke();
  }
  const pattern = context.createPattern(paper, 'repeat');
  pattern?.setTransform(new DOMMatrix().scale(1 / scale));
  return pattern ?? skin;
}

/** Each count in its own piece of the column, where there is room; over the grain on a plate. */
function counts(months: readonly RepertoireMonth[], look: ChartLook): Plugin<'bar'> {
  const size = look.size + 1;
  return {
    id: 'counts',
    afterDatasetsDraw(chart) {
      const { ctx } = chart;
      ctx.save();
      ctx.font = `600 ${size}px ${look.family}`;
      ctx.textAlign = 'center';
      ctx.textBaseline = 'middle';
      for (const [at, { atGoal, growing, rusty }] of months.entries()) {
        const below = [0, atGoal, atGoal + growing];
        for (const [place, count] of [atGoal, growing, rusty].entries()) {
          const piece = pieceOf(chart, place, at, below[place] ?? 0, count);
          if (count === 0 || piece.height < size + 3) continue;
          const label = String(count);
          if (place === 2) {
            const plate = Math.min(ctx.measureText(label).width + 6, piece.width - 3);
            ctx.fillStyle = look.skin;
            ctx.fillRect(piece.x - plate / 2, piece.y - size / 2 - 1, plate, size + 2);
          }
          ctx.fillStyle = place === 0 ? look.skin : look.ink;
          ctx.fillText(label, piece.x, piece.y + 1);
        }
      }
      ctx.restore();
    },
  };
}

/** The middle of a piece and its size, in pixels. */
function pieceOf(chart: Chart, place: number, at: number, below: number, count: number) {
  const column = chart.getDatasetMeta(place).data[at]?.getProps(['x', 'width']);
  const foot = chart.scales['y']?.getPixelForValue(below) ?? 0;
  const head = chart.scales['y']?.getPixelForValue(below + count) ?? 0;
  return { x: column?.x ?? 0, y: (foot + head) / 2, width: column?.width ?? 0, height: foot - head };
}
