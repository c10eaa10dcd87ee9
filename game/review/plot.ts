// Draws one chart, by the chart library alone: it comes in a piece of its own, which only a debrief
// fetches. The page's colours are asked of its style sheet; every line has its own stroke besides.
import uPlot from 'uplot';
import 'uplot/dist/uPlot.min.css';
import type { Chart } from './charts.ts';

export interface Frame {
  /** Seconds of work of every value. */
  readonly x: readonly number[];
  /** The clock's face after so many seconds of work. */
  readonly face: (work_s: number) => string;
  /** Seconds of work of the moments, in their order, and of the nights that are cut out. */
  readonly moments: readonly number[];
  readonly nights: readonly number[];
}

export interface Drawn {
  readonly resize: () => void;
  /** To the size it has on paper, two in a row, whatever the screen's was. */
  readonly print: () => void;
  readonly destroy: () => void;
}

const HEIGHT = 150;
const ON_PAPER = { width: 340, height: 92 };
/** CSS px: what stands left of the lines, so that all charts begin at the same place. */
const LEFT = 58;
/** Of the strokes of up to three lines: solid, dashed, dotted. */
const DASHES = [[], [9, 5], [2, 4]] as const;
const COLOURS = ['--water-deep', '--accent-deep', '--done-deep'] as const;
/** Steps of the time's axis, s. */
const STEPS = [10, 30, 60, 120, 300, 600, 1200, 1800, 3600, 7200, 14_400, 28_800, 86_400];

const token = (name: string): string =>
  getComputedStyle(document.documentElement).getPropertyValue(name).trim();

function font(parent: HTMLElement): string {
  const { fontFamily } = getComputedStyle(parent);
  return `13px ${fontFamily}`;
}

function verticals({ moments, nights }: Frame) {
  return (u: uPlot): void => {
    const { ctx, bbox } = u;
    const ratio = devicePixelRatio;
    ctx.save();
    ctx.lineWidth = ratio;
    const line = (x: number): void => {
      ctx.beginPath();
      ctx.moveTo(x, bbox.top);
      ctx.lineTo(x, bbox.top + bbox.height);
      ctx.stroke();
    };
    ctx.strokeStyle = token('--muted');
    ctx.setLineDash([]);
    for (const night of nights) {
      const x = u.valToPos(night, 'x', true);
      line(x - 2 * ratio);
      line(x + 2 * ratio);
    }
    ctx.setLineDash([4 * ratio, 3 * ratio]);
    ctx.strokeStyle = ctx.fillStyle = token('--ink');
    ctx.font = `600 ${13 * ratio}px ${getComputedStyle(u.root).fontFamily}`;
    ctx.textAlign = 'center';
    ctx.textBaseline = 'bottom';
    let free = -Infinity; // Numbers of moments close together stand beside one another.
    moments.forEach((moment, k) => {
      const x = u.valToPos(moment, 'x', true);
      line(x);
      const at = Math.max(x, free);
      ctx.fillText(String(k + 1), at, bbox.top - 3 * ratio);
      free = at + 12 * ratio;
    });
    ctx.restore();
  };
}

function limitLine(limit: Chart['limit']) {
  return (u: uPlot): void => {
    if (limit === null) return;
    const { ctx, bbox } = u;
    const y = u.valToPos(limit.value, 'y', true);
    if (y < bbox.top || y > bbox.top + bbox.height) return;
    ctx.save();
    ctx.strokeStyle = token('--ink');
    ctx.lineWidth = 1.5 * devicePixelRatio;
    ctx.setLineDash([1 * devicePixelRatio, 2 * devicePixelRatio]);
    ctx.beginPath();
    ctx.moveTo(bbox.left, y);
    ctx.lineTo(bbox.left + bbox.width, y);
    ctx.stroke();
    ctx.restore();
  };
}

/** From the least to the most of all lines and the limit, with a little room. */
function rangeOf({ lines, limit, tenfold, top: cut }: Chart): [number, number] {
  const all = lines.flatMap(({ values }) =>
    [Math.min(...values), Math.min(cut, Math.max(...values))]);
  const top = Math.max(...all);
  if (limit !== null && (top <= 0 || limit.value <= 3 * top)) all.push(limit.value);
  const [least, most] = [Math.min(...all), Math.max(...all)];
  if (tenfold) return [10 ** Math.floor(Math.log10(least)), 10 ** Math.ceil(Math.log10(most))];
  const room = 0.06 * Math.max(most - Math.min(0, least), 1e-6);
  return [least < 0 ? least - room : 0, most <= 0 ? 1 : most + room];
}

/** Every power of ten from one to the other. */
function powers([from, to]: [number, number]): number[] {
  const first = Math.round(Math.log10(from));
  const count = Math.round(Math.log10(to)) - first + 1;
  return Array.from({ length: count }, (_, k) => Number((10 ** (first + k)).toPrecision(1)));
}

export function draw(parent: HTMLElement, chart: Chart, frame: Frame): Drawn {
  const hair = token('--hair');
  const axis = { stroke: token('--muted'), font: font(parent), grid: { stroke: hair, width: 1 },
    ticks: { stroke: hair, width: 1, size: 5 } };
  const range = rangeOf(chart);
  const plot = new uPlot({
    width: Math.max(200, parent.clientWidth),
    height: HEIGHT,
    padding: [22, 32, 0, 0],
    legend: { show: false },
    cursor: { show: false },
    scales: { x: { time: false }, y: { range, distr: chart.tenfold ? 3 : 1 } },
    axes: [
      { ...axis, size: 32, space: 70, incrs: STEPS, values: (_u, all) => all.map(frame.face) },
      { ...axis, size: LEFT, space: 26,
        ...(chart.tenfold ? { splits: () => powers(range) } : {}) },
    ],
    series: [
      {},
      ...chart.lines.map((_, k) => ({
        stroke: token(COLOURS[k % COLOURS.length] ?? '--ink'), width: 2,
        dash: [...(DASHES[k % DASHES.length] ?? [])], points: { show: false },
      })),
    ],
    hooks: { draw: [limitLine(chart.limit), verticals(frame)] },
  }, [[...frame.x], ...chart.lines.map(({ values }) => [...values])], parent);
  return {
    resize: () => plot.setSize({ width: Math.max(200, parent.clientWidth), height: HEIGHT }),
    print: () => plot.setSize(ON_PAPER),
    destroy: () => plot.destroy(),
  };
}
