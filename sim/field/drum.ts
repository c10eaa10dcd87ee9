// Antifreeze and its proof: a drum with its pump or pail, a pail with a hand pump at the loop's
// end, a cup and what looks at a sample.
import { addFitting, addValve, gasIn } from './parts.ts';
import type { Draft, ScenarioText } from './parts.ts';
import type { ChargeSite, DrumSite, SampleSite } from './kit-site.ts';

/** m2. A drum and a pail [common practice, no source]. */
const DRUM_AREA = 0.25;
const PAIL_AREA = 0.06;
/** mL and s. A lever pump on a drum [common practice, no source]. */
const DRUM_STROKE_ML = 400;
const DRUM_STROKE_S = 2;
/** m. Of the hose behind a drum's own pump. */
const HOSE_M = 3;

/** A port in the cart's tank near its rim, for what is poured in. */
function addDosePort(draft: Draft): void {
  const tank = draft.nodes.find(({ id }) => id === 'tank');
  if (tank?.kind !== 'tank') throw new Error('the builder has no tank');
  tank.ports.push({ id: 'dose', height_mm: tank.height_mm - 10, bore_mm: 25 });
}

export function addDrum(draft: Draft, drum: DrumSite): void {
  const { area_m2 = DRUM_AREA } = drum;
  const level = drum.litres / area_m2;
  addDosePort(draft);
  draft.nodes.push({
    ...{ id: 'drum', kind: 'tank', floor_m: 0.1, area_m2 },
    ...{ height_mm: level + 60, start_level_mm: level, start_antifreeze_fraction: drum.fraction },
    ports: [{ id: 'bung', height_mm: 20, bore_mm: 25 }],
  });
  draft.instruments.push({ id: 'drum_level', kind: 'level', tank: 'drum', resolution_mm: 2 });
  if (drum.by === 'hand') {
    draft.links.push({
      ...{ id: 'drum_pump', kind: 'hand_pump', from: 'drum.bung', to: 'tank.dose', bore_mm: 25 },
      stroke_mL: drum.stroke_mL ?? DRUM_STROKE_ML,
      ...{ stroke_s: DRUM_STROKE_S, max_kPa: 100 },
    });
  } else addDrumPump(draft, drum);
  if (drum.pail_L === undefined) return;
  const way = { from: 'drum', to: 'tank', litres: drum.pail_L };
  draft.devices.push({ id: 'drum_pail', kind: 'carry', ...way });
}

/** A small pump of its own that stands lower than the drum, a valve before it, a hose behind. */
function addDrumPump(draft: Draft, drum: DrumSite): void {
  for (const id of ['drum_eye', 'drum_out']) {
    addFitting(draft, { id, elevation_m: 0.05, gas: drum.empty === true ? 'air' : 'water' });
  }
  addValve(draft, { id: 'drum_valve', from: 'drum.bung', to: 'drum_eye', bore_mm: 25 });
  draft.links.push(
    {
      ...{ id: 'drum_pump', kind: 'pump', from: 'drum_eye', to: 'drum_out', bore_mm: 25 },
      curve: [
        { flow_L_s: 0, head_m: 8 },
        { flow_L_s: 0.4, head_m: 6 },
        { flow_L_s: 0.8, head_m: 0 },
      ],
      best_flow_L_s: 0.4,
    },
    {
      ...{ id: 'drum_hose', kind: 'hose', from: 'drum_out', to: 'tank.dose', bore_mm: 25 },
      ...{ length_m: HOSE_M, start_antifreeze_fraction: drum.fraction, clear: true },
      ...(drum.empty === true ? gasIn('air', HOSE_M) : {}),
    },
  );
}

/** A pail of the cart's mix, a jug that fills it, and a hand pump from it to the loop's end. */
export function addCharge(draft: Draft, charge: ChargeSite, at: string): void {
  draft.nodes.push({
    ...{ id: 'mix_pail', kind: 'tank', floor_m: 0, area_m2: PAIL_AREA, start_level_mm: 0 },
    height_mm: charge.pail_L / PAIL_AREA + 20,
    ports: [{ id: 'out', height_mm: 15, bore_mm: 20 }],
  });
  draft.links.push({
    ...{ id: 'charge_pump', kind: 'hand_pump', from: 'mix_pail.out', to: at, bore_mm: 12 },
    ...{ stroke_mL: charge.stroke_mL, stroke_s: 1.5, max_kPa: charge.max_kPa },
  });
  const way = { from: 'tank', to: 'mix_pail', litres: charge.jug_L };
  draft.devices.push({ id: 'jug', kind: 'carry', ...way });
  draft.instruments.push({ id: 'pail_level', kind: 'level', tank: 'mix_pail', resolution_mm: 5 });
}

export function addSamples(
  draft: Draft,
  samples: SampleSite,
  kind: NonNullable<ScenarioText['antifreeze']>,
): void {
  draft.devices.push({ id: 'cup', kind: 'cup', places: [...samples.places], litres: 0.1 });
  const dip = { kind: 'dip_thermometer', cup: 'cup', resolution_C: 0.5 } as const;
  draft.instruments.push({ id: 'dip_thermometer', ...dip });
  const own = kind === 'none' ? {} : { made_for: kind };
  if (samples.by === 'refractometer') {
    const scale = { lowest_C: -40, resolution_C: 0.5 };
    draft.instruments.push({
      ...{ id: 'refractometer', kind: 'refractometer', cup: 'cup', ...own, ...scale },
    });
    return;
  }
  const corrects = kind === 'none' ? {} : { corrects_for: kind };
  draft.instruments.push({
    ...{ id: 'hydrometer', kind: 'hydrometer', cup: 'cup', resolution: 0.001, ...corrects },
  });
}
