// A small section of the job's circuit, drawn from the scenario's own heights: what the trench
// does to the pipe, before anything is touched. The pipe is bare paper, for it is full of air.
import type { Scenario } from '../../sim/index.ts';
import { figure } from '../i18n/format.ts';
import { t } from '../i18n/index.ts';

/** Heights against lengths; the same at every size of the picture. */
const EXAGGERATION = 10;
const WIDTH = 1000;
const SIDE = 26;
const SKY = 46;
const FLOOR = 26;

interface Section {
  readonly points: readonly (readonly [number, number])[];
  readonly length: number;
}

/** Lengths along and elevations of the first loop pipe; null where the job has none. */
export function sectionOf(scenario: Scenario): Section | null {
  const loop = scenario.job?.loop_links ?? [];
  const pipe = scenario.links.find((link) => link.kind === 'pipe' && loop.includes(link.id));
  if (pipe?.kind !== 'pipe') return null;
  const height = (end: string): number => {
    const node = scenario.nodes.find(({ id }) => id === end);
    return node === undefined || node.kind === 'tank' ? 0 : node.elevation_m;
  };
  const inner = pipe.profile.map(({ at_m, elevation_m }) => [at_m, elevation_m] as const);
  const points = [
    [0, height(pipe.from)] as const, ...inner, [pipe.length_m, height(pipe.to)] as const,
  ];
  return { points, length: pipe.length_m };
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

export function SectionPicture({ scenario }: { readonly scenario: Scenario }) {
  const section = sectionOf(scenario);
  if (section === null) return null;
  const perMetre = (WIDTH - 2 * SIDE) / section.length;
  const deepest = Math.min(...section.points.map(([, z]) => z));
  const down = perMetre * EXAGGERATION;
  const height = SKY - deepest * down + FLOOR;
  const path = section.points
    .map(([s, z], k) => `${k === 0 ? 'M' : 'L'}${SIDE + s * perMetre} ${SKY - z * down}`)
    .join('');
  const hatch = Array.from({ length: 110 }, (_, k) => {
    const x = (k * 618.034) % WIDTH;
    const y = SKY + 12 + ((k * k * 7.31 + k * 31.7) % (height - SKY - 16));
    return `M${x.toFixed(1)} ${y.toFixed(1)}l8 -3.5`;
  }).join('');
  return (
    <figure class="section">
      <svg viewBox={`0 0 ${WIDTH} ${height}`} aria-hidden="true" fill="none">
        <rect width={WIDTH} height={SKY} fill="#dde6e6" />
        <rect y={SKY} width={WIDTH} height={height - SKY} fill="#d9c9ab" />
        <path d={hatch} stroke="#b9a67e" stroke-width="1.3" stroke-linecap="round" />
        <path d={grass(SKY)} stroke="#6d7f4f" stroke-width="1.2" stroke-linecap="round" />
        <path d={`M0 ${SKY}H${WIDTH}`} stroke="#26282b" stroke-width="2" />
        <g stroke-linecap="round" stroke-linejoin="round">
          <path d={path} stroke="#26282b" stroke-width="10.5" />
          <path d={path} stroke="#f5f0e6" stroke-width="6.5" />
        </g>
      </svg>
      <figcaption class="hint">
        {t('front.section', { m: figure(section.length, 0), n: EXAGGERATION })}
      </figcaption>
    </figure>
  );
}
