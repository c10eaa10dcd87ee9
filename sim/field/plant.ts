// The heat-pump side: a coil behind two three-way service valves, which join the hose with the
// loop, the hose with the unit, or the unit with the loop.
import { ELBOW_K } from './circuits.ts';
import { addFitting, gasIn, pipeSection } from './parts.ts';
import type { Draft } from './parts.ts';
import { LOOP_RATING } from './header.ts';
import type { PlantSide } from './site.ts';

export interface ServiceEnds {
  readonly elevation_m: number;
  readonly gas: 'air' | 'water';
  /** Bore of the loop's ends, where the service valves sit. */
  readonly bore_mm: number;
}

/**
 * Three-way valves from `loop_start` to `field_start` and from `loop_end` to `field_end`, with
 * the unit on their branches. Handles: 180 hose and loop (unit shut off), 270 hose and unit
 * (loop shut off), 90 unit and loop (hose shut off: as it runs). They stand at 180.
 */
export function addPlant(draft: Draft, plant: PlantSide, ends: ServiceEnds): void {
  const { bore_mm } = ends;
  for (const id of ['field_start', 'field_end']) {
    addFitting(draft, {
      id,
      elevation_m: ends.elevation_m,
      gas: ends.gas,
      rating_kPa: LOOP_RATING,
    });
  }
  const at = { gas: plant.contents, rating_kPa: LOOP_RATING } as const;
  addFitting(draft, { id: 'unit_out', elevation_m: ends.elevation_m, ...at });
  addFitting(draft, { id: 'unit_in', elevation_m: ends.elevation_m, ...at });
  addFitting(draft, { id: 'coil_out', elevation_m: plant.elevation_m, ...at });
  addFitting(draft, { id: 'coil_in', elevation_m: plant.elevation_m, ...at });
  const turn = {
    kind: 'three_way',
    bore_mm,
    loss_k_open: 0.4,
    start_deg: 180,
    rate_deg_s: 45,
  } as const;
  const pipe = {
    kind: 'pipe',
    ...pipeSection(plant.size, 11),
    length_m: plant.pipe_m,
    loss_k: 3 * ELBOW_K,
    ...gasIn(plant.contents, plant.pipe_m),
  } as const;
  draft.links.push(
    { id: 'supply_service', from: 'loop_start', to: 'field_start', branch: 'unit_out', ...turn },
    { id: 'return_service', from: 'loop_end', to: 'field_end', branch: 'unit_in', ...turn },
    { id: 'unit_in_pipe', from: 'unit_in', to: 'coil_in', ...pipe },
    {
      id: 'coil',
      kind: 'coil',
      from: 'coil_in',
      to: 'coil_out',
      bore_mm: pipe.bore_mm,
      table: plant.coil.map((row) => ({ ...row })),
    },
    { id: 'unit_out_pipe', from: 'coil_out', to: 'unit_out', ...pipe },
  );
  draft.loop.push('unit_in_pipe', 'unit_out_pipe');
}
