// A small section of the job's loop, drawn from the scenario's own heights: what the ground does to
// the pipe, before anything is touched. Trenches are laid out straight one after the other, bores
// stand side by side. The pipe is bare paper: most often it is full of air.
import type { Scenario } from '../../sim/index.ts';
import { circuitsOf, type Circuit } from '../circuits.ts';
import { figure } from '../i18n/format.ts';
import { t } from '../i18n/index.ts';

const WIDTH = 1000;
const SIDE = 26;
const SKY = 46;
const FLOOR = 26;
/** How deep the deepest trench is drawn, and the deepest bore. */
const DEPTH = { trench: 82, bore: 128 } as const;
/** Bare ground between two circuits, and how far apart the legs of a bore are drawn. */
const GAP = 16;
const LEGS = 34;

type Spot = readonly [x: number, y: number];

interface Picture {
  /** One line for each circuit. */
  readonly lines: readonly (readonly Spot[])[];
  readonly height: number;
  readonly caption: string;
}

const depthOf = ({ course }: Circuit): number =>
  Math.max(0.1, ...course.map(([, elevation_m]) => -elevation_m));

/** Of a bore: from its upper end down, as a driller counts. */
function dropOf({ course }: Circuit): number {
  const heights = course.map(([, elevation_m]) => elevation_m);
  return Math.max(...heights) - Math.min(...heights);
}

/** Heights against lengths, in steps that can be said: 10, 12, 15, 20 times. */
function exaggeration(wanted: number): number {
  const step = wanted < 5 ? 1 : wanted < 30 ? 5 : 10;
  return Math.max(1, step * Math.round(wanted / step));
}

function trenches(circuits: readonly Circuit[]): Picture {
  const length = circuits.reduce((sum, { length_m }) => sum + length_m, 0);
  const perMetre = (WIDTH - 2 * SIDE - GAP * (circuits.length - 1)) / length;
  const deepest = Math.max(...circuits.map(depthOf));
  const n = exaggeration(DEPTH.trench / (deepest * perMetre));
  const down = perMetre * n;
  let x = SIDE;
  const lines = circuits.map(({ course, length_m }) => {
    const start = x;
    x += length_m * perMetre + GAP;
    return course.map(([s, z]): Spot => [start + s * perMetre, SKY - z * down]);
  });
  const values = { m: figure(length, 0), n, count: circuits.length };
  const caption = circuits.length === 1
    ? t('front.section', values)
    : t('front.sections', values);
  return { lines, height: SKY + deepest * down + FLOOR, caption };
}

function bores(circuits: readonly Circuit[]): Picture {
  const deepest = Math.max(...circuits.map(depthOf));
  const down = DEPTH.bore / deepest;
  const pitch = (WIDTH - 2 * SIDE) / circuits.length;
  const legs = Math.min(LEGS, 0.5 * pitch);
  const lines = circuits.map(({ course }, at) => {
    const start = SIDE + (at + 0.5) * pitch - legs / 2;
    const lowest = Math.min(...course.map(([, z]) => z));
    const foot = course.findIndex(([, z]) => z === lowest);
    return course.map(([, z], k): Spot => [k <= foot ? start : start + legs, SKY - z * down]);
  });
  const values = { m: figure(Math.max(...circuits.map(dropOf)), 0), count: circuits.length };
  return { lines, height: SKY + DEPTH.bore + FLOOR, caption: t('front.bores', values) };
}

/** Null where the job has no loop. */
export function pictureOf(scenario: Scenario): Picture | null {
  const circuits = circuitsOf(scenario);
  if (circuits.length === 0) return null;
  return circuits.every(({ steep }) => steep) ? bores(circuits) : trenches(circuits);
}

/** Tufts of grass at places that look like chance and are always the same. */
function grass(ground: number): string {
  const tufts: string[] = [];
  for (let x = 8; x < WIDTH; x += 7 + ((x * 7919) % 13)) {
    const h = 3 + ((x * 31) % 5);
    tufts.push(`M${x} ${ground}l-2 ${-h}M${x} ${ground}l1.5 ${-h - 1}`);
  }
  return tufts.join('');
}

interface Props { readonly scenario: Scenario; readonly caption?: boolean }

export function SectionPicture({ scenario, caption = true }: Props) {
  const picture = pictureOf(scenario);
  if (picture === null) return null;
  const { lines, height } = picture;
  const paths = lines.map((line) =>
    line.map(([x, y], k) => `${k === 0 ? 'M' : 'L'}${x.toFixed(1)} ${y.toFixed(1)}`).join(''));
  const hatch = Array.from({ length: 110 }, (_, k) => {
    const x = (k * 618.034) % WIDTH;
    const y = SKY + 12 + ((k * k * 7.31 + k * 31.7) % (height - SKY - 16));
    return `M${x.toFixed(1)} ${y.toFixed(1)}l8 -3.5`;
  }).join('');
  const bore = Math.min(6.5, 40 / Math.sqrt(lines.length));
  return (
    <figure class="section">
      <svg viewBox={`0 0 ${WIDTH} ${height}`} aria-hidden="true" fill="none">
        <rect width={WIDTH} height={SKY} fill="#dde6e6" />
        <rect y={SKY} width={WIDTH} height={height - SKY} fill="#d9c9ab" />
        <path d={hatch} stroke="#b9a67e" stroke-width="1.3" stroke-linecap="round" />
        <path d={grass(SKY)} stroke="#6d7f4f" stroke-width="1.2" stroke-linecap="round" />
        <path d={`M0 ${SKY}H${WIDTH}`} stroke="#26282b" stroke-width="2" />
        <g stroke-linecap="round" stroke-linejoin="round">
          {paths.map((path, k) => (
            <g key={k}>
              <path d={path} stroke="#26282b" stroke-width={bore + 4} />
              <path d={path} stroke="#f5f0e6" stroke-width={bore} />
            </g>
          ))}
        </g>
      </svg>
      {caption && <figcaption class="hint">{picture.caption}</figcaption>}
    </figure>
  );
}
