// What a site may have beyond rig, loop and unit: power, couplings, filter, drum, samples, worn
// things. All of it is optional; what a site does not name is not there.
import type { ScenarioSchema } from '../scenario.ts';

type ScenarioText = (typeof ScenarioSchema)['_zod']['input'];
type DeviceText = NonNullable<ScenarioText['devices']>[number];
type LinkText = ScenarioText['links'][number];
export type MotorText = NonNullable<Extract<LinkText, { kind: 'pump' }>['motor']>;
export type DebrisText = NonNullable<ScenarioText['debris']>;

/** Where the cart's pump gets its power. Plug out, breaker on, protector set, unless told. */
export interface PowerSite {
  readonly supply: NonNullable<ScenarioText['power']>['supply'];
  readonly cord_m: number;
  /** Copper of one conductor; else 3.3 mm2 (AWG 12). */
  readonly copper_mm2?: number;
  /** False where no outlet has ground-fault protection; else there is one. */
  readonly ground_fault?: boolean;
  /** Over the plate that the rig's pump has (power.ts). */
  readonly motor?: Partial<MotorText>;
}

/** How the two hoses meet the loop's stubs, and what stands at the loop's own ends. */
export interface EndsSite {
  /**
   * `cam`: couplings with arms; parted, the hose's half is open and the loop's is capped.
   * `dry`: both halves shut by themselves, and a second pair changes the ways over.
   */
  readonly joints: 'cam' | 'dry';
  /** Else apart, as on arrival. */
  readonly start?: 'apart' | 'made';
  /** Of the gauge at the loop's end behind the valves; else 600 kPa in steps of 10. */
  readonly gauge?: { readonly range_kPa: number; readonly resolution_kPa: number };
}

/** Bags for the rig's filter; the first is in it at the start. */
export interface FilterSite {
  readonly bags: readonly NonNullable<DebrisText['elements']>[number][];
  /** A valve around the filter. */
  readonly by_pass?: boolean;
}

/** A drum beside the cart, and how what is in it gets into the cart's tank. */
export interface DrumSite {
  readonly litres: number;
  /** By mass: 1 is undiluted. */
  readonly fraction: number;
  /** `hand`: so much a stroke, straight into the tank; `pump`: a pump of its own with a valve. */
  readonly by: 'hand' | 'pump';
  /** Of its surface; two drums joined at their bungs have twice that of one, which is the rule. */
  readonly area_m2?: number;
  /** True where its pump and hose come empty; else they stand full. */
  readonly empty?: boolean;
  readonly stroke_mL?: number;
  /** Litres of a pail between drum and tank; else there is none. */
  readonly pail_L?: number;
}

/** A hand pump at the loop's end, which draws from a pail that is filled out of the cart's tank. */
export interface ChargeSite {
  readonly pail_L: number;
  /** Of a jug between tank and pail. */
  readonly jug_L: number;
  readonly stroke_mL: number;
  readonly max_kPa: number;
}

/** A cup for samples and what looks at it. */
export interface SampleSite {
  /** Nodes; tank and return are usual. */
  readonly places: readonly string[];
  readonly by: 'refractometer' | 'hydrometer';
}

/** Where a gauge's scale begins, ends and steps, and how far each is off within its class. */
export interface GaugeSite {
  readonly range_kPa?: number;
  readonly resolution_kPa?: number;
  readonly lag_s?: number;
  readonly error_share?: number;
}

/** The plant room: what stands between the service valves besides the coil. */
export interface PlantRoom {
  /** The loop's own pump, locked with `lock_unit`; head (m) by flow (L/s). */
  readonly pump: {
    readonly curve: readonly (readonly [flow_L_s: number, head_m: number])[];
    readonly best_flow_L_s: number;
  };
  /** Handles of both service valves at the start: 90 as it runs, 180 past the unit; else 180. */
  readonly service_deg?: number;
  readonly strainer?: NonNullable<DebrisText['elements']>[number];
  readonly check_valve?: boolean;
  /** An air vent at the highest fitting. */
  readonly vent?: boolean;
  /** Membrane vessel: litres that it takes in for each 100 kPa. */
  readonly vessel_L_per_100kPa?: number;
  /** A cap valve before the vessel, shut at the start. */
  readonly vessel_valve?: boolean;
  /** Of the difference gauge across the coil. */
  readonly gauge?: { readonly range_kPa: number; readonly resolution_kPa: number };
  /** Thermometers at both ends of the coil. */
  readonly thermometers?: boolean;
}

/** Things that carry no fluid, each a device; entries and flames as a scenario has them. */
export interface ThingsSite {
  readonly wear?: readonly ('eyes' | 'gloves' | 'hearing')[];
  /** Backflow protection between tap and hose. */
  readonly guard?: boolean;
  readonly acts?: readonly { readonly id: string; readonly take_s?: number }[];
  readonly more?: readonly DeviceText[];
}

/** What a site has of a whole day; each key by itself. */
export interface DaySite {
  readonly antifreeze?: NonNullable<ScenarioText['antifreeze']>;
  readonly power?: PowerSite;
  readonly ends?: EndsSite;
  /** Changes the ways over at the rig: two three-way valves, or on the mast the four it has. */
  readonly changeover?: boolean;
  readonly filter?: FilterSite;
  readonly drum?: DrumSite;
  readonly charge?: ChargeSite;
  readonly samples?: SampleSite;
  /** Drains at both hose ends, casing and tank, into a pail; a vent at the discharge. */
  readonly drains?: boolean;
  /** A counter in the make-up hose, in steps of so many litres. */
  readonly meter_L?: number;
  /** A drain of the make-up hose beside the guard's tap. */
  readonly hose_drain?: boolean;
  /** A flow meter where the rig has none: in the way to the loop, L/min. */
  readonly flow_meter_L_min?: number;
  /** A thermometer in the way back. */
  readonly thermometer?: boolean;
  /** Over what the rig's gauges are, by id. */
  readonly gauges?: Readonly<Record<string, GaugeSite>>;
  readonly things?: ThingsSite;
  /** Grains and where they lie; elements and catchers come with the filter and the unit. */
  readonly debris?: DebrisText;
  /** True where the loop's pipes are polyethylene that creeps. */
  readonly creeps?: boolean;
  /** As a scenario has them; pipes of the rig stand in the air by themselves. */
  readonly with?: Pick<
    ScenarioText,
    | 'heat'
    | 'dissolved_air'
    | 'running_layers'
    | 'gas_heats'
    | 'surges'
    | 'room'
    | 'record'
    | 'defects'
    | 'hands'
  >;
}
