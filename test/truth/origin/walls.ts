// Pipe that stretches and creeps, for the expected values of cases.json: the thick cylinder of Lame
// 1852, and the modulus of polyethylene as the Plastics Pipe Institute prints it. Not of sim/.
import { compressibility, expansion } from './water.ts';
import { rows } from './printed.ts';

const PSI = 6894.757;
const ATM = 101325;
const FT = 0.3048;
const INCH = 0.0254;
/** One inch SDR 11, ASTM D3035: 1.315 inches outside, a wall of 0.120. */
const SDR11 = { D: (1.315 - 0.24) * INCH, e: 0.12 * INCH };

interface Tube {
  readonly D: number;
  readonly e: number;
}

/**
 * Strain of the bore's area per E/p, Lame: radial displacement of the inner face of a thick
 * cylinder under inner pressure, with axial stress by how its ends are held.
 */
export function lame({ D, e }: Tube, nu: number, ends: Ends): { area: number; axial: number } {
  const k2 = ((D + 2 * e) / D) ** 2;
  const hoop = (k2 + 1) / (k2 - 1);
  const radial = -1;
  const axial = ends === 'free' ? 1 / (k2 - 1) : ends === 'joints' ? 0 : nu * (hoop + radial);
  const around = hoop - nu * (radial + axial);
  return { area: 2 * around, axial: axial - nu * (hoop + radial) };
}
type Ends = 'free' | 'restrained' | 'joints';

interface Strain {
  readonly held: Ends;
  readonly modulus_MPa: number;
  readonly rise_psi: number;
  readonly nu: number;
}

function areaStrain(i: Strain): number {
  return (lame(SDR11, i.nu, i.held).area * i.rise_psi * PSI) / (i.modulus_MPa * 1e6);
}

/** Of a pipe with closed ends that is free to lengthen, all its room. */
function roomStrain(i: Omit<Strain, 'held'>): number {
  const { area, axial } = lame(SDR11, i.nu, 'free');
  return ((area + axial) * i.rise_psi * PSI) / (i.modulus_MPa * 1e6);
}

/** L that a buried pipe's wall and its water take per Pa. */
function give(pipe: Tube, length_m: number, E: number): { wall: number; water: number } {
  const litres = ((Math.PI * pipe.D * pipe.D) / 4) * length_m * 1000;
  const wall = (litres * lame(pipe, 0.45, 'restrained').area) / E;
  return { wall, water: litres * compressibility(20) };
}

/** L of gas at p0 that give way to water by p1 (Pa gauge), Boyle. */
const boyle = (gas_L: number, p0: number, p1: number): number =>
  gas_L * (1 - (p0 + ATM) / (p1 + ATM));

interface Deadhead {
  readonly length_ft: number;
  readonly modulus_MPa: number;
  readonly from_psi: number;
  readonly to_psi: number;
  readonly gas_L: number;
}

/** L that wall, water and all take between two pressures. */
function deadhead(i: Deadhead): [number, number, number] {
  const rise = (i.to_psi - i.from_psi) * PSI;
  const { wall, water } = give(SDR11, i.length_ft * FT, i.modulus_MPa * 1e6);
  const air = boyle(i.gas_L, i.from_psi * PSI, i.to_psi * PSI);
  return [wall * rise, water * rise, (wall + water) * rise + air];
}

interface Stretch {
  /** One inch SDR 11 unless told otherwise. */
  readonly bore_mm?: number;
  readonly wall_mm?: number;
  readonly length_m: number;
  readonly modulus_MPa: number;
  readonly psi: readonly [from: number, to: number];
  readonly gas_L?: number;
}

function stretch(i: Stretch): number {
  const [p0, p1] = [i.psi[0] * PSI, i.psi[1] * PSI];
  const { bore_mm = 1000 * SDR11.D, wall_mm = 1000 * SDR11.e } = i;
  const pipe = { D: bore_mm / 1000, e: wall_mm / 1000 };
  const { wall, water } = give(pipe, i.length_m, i.modulus_MPa * 1e6);
  return (wall + water) * (p1 - p0) + boyle(i.gas_L ?? 0, p0, p1);
}

/** MPa by hours under load at 73 F, as printed. */
const PRINTED = rows('PPI2008 B.1.1').map(
  ([hours, E]) => [Number(hours.replace(' h', '')), E[0]!] as const,
);

/** MPa after so many hours: a power law through the printed table, least squares in ln and ln. */
function modulus(hours: number): number {
  const points = PRINTED.map(([h, E]) => [Math.log(h), Math.log(E)] as const);
  const mean = (pick: (p: readonly [number, number]) => number) =>
    points.reduce((sum, p) => sum + pick(p), 0) / points.length;
  const [x, y] = [mean((p) => p[0]), mean((p) => p[1])];
  const b = mean((p) => (p[0] - x) * (p[1] - y)) / mean((p) => (p[0] - x) ** 2);
  return Math.exp(y + b * (Math.log(hours) - x));
}

interface Decay {
  readonly from_min: number;
  readonly at_min: readonly number[];
  readonly t_C: number;
}

/** Pressure left in a shut loop, as if it were elastic with the modulus of each time. */
function decay({ from_min, at_min, t_C }: Decay): number[] {
  const c = lame(SDR11, 0.45, 'restrained').area;
  const soft = (minutes: number) => compressibility(t_C) + c / (modulus(minutes / 60) * 1e6);
  return at_min.map((t) => soft(from_min) / soft(t));
}

interface Creep {
  readonly psi: number;
  readonly t_C: number;
  readonly after_s: readonly number[];
  readonly length_m: number;
}

/** L taken in under a pressure that stays, with the printed modulus of each time. */
function creep({ psi, t_C, after_s, length_m }: Creep): number[] {
  const litres = ((Math.PI * SDR11.D * SDR11.D) / 4) * length_m * 1000;
  return after_s.map((s) => {
    const printed = PRINTED.find(([hours]) => hours === s / 3600);
    if (printed === undefined) throw new Error(`no modulus is printed at ${s} s`);
    const wall = lame(SDR11, 0.45, 'restrained').area / (printed[1] * 1e6);
    return litres * psi * PSI * (wall + compressibility(t_C));
  });
}

interface Warming {
  readonly t_C: readonly number[] | number;
  readonly modulus_MPa: number;
}

/** kPa/K of a full, shut, buried loop of PE4710, 1.44e-4 a kelvin in length. */
function kPaPerKelvin(i: Warming): number[] {
  const room = 2 * 1.44e-4 * (1 + 0.45);
  const wall = lame(SDR11, 0.45, 'restrained').area / (i.modulus_MPa * 1e6);
  return [i.t_C].flat().map((t) => (expansion(t) - room) / (compressibility(t) + wall) / 1000);
}

export const WALLS = {
  'walls.areaStrain': areaStrain,
  'walls.roomStrain': roomStrain,
  'walls.deadhead_L': deadhead,
  'walls.deadheadAll_L': (i: Deadhead) => deadhead(i)[2],
  'walls.stretch_L': stretch,
  'walls.decay': decay,
  'walls.creep_L': creep,
  'walls.kPaPerKelvin': kPaPerKelvin,
};
