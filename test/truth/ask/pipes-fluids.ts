// How questions of cases.json are put to the laws of pipes and fluids: inputs in the units of their
// keys, answers in the unit of the question's name. Arithmetic here is that of the question, never
// of the law.
import {
  bleedAndFeedVolume,
  fractionForFreezePoint,
  freezePoint_C,
  massFraction,
  mixConductivity,
  mixDensity,
  mixHeatCapacity,
  mixViscosity,
  volumeFraction,
  type Fluid,
} from '../../../sim/laws/antifreeze.ts';
import * as elastic from '../../../sim/laws/elastic.ts';
import * as fitting from '../../../sim/laws/fitting.ts';
import { frictionFactor, pipeLoss } from '../../../sim/laws/friction.ts';
import { idNominal, outsideDiameter, wallMin, type PipeSize } from '../../../sim/laws/pipe.ts';
import * as water from '../../../sim/laws/water.ts';

export type Answer = number | readonly number[];
type Call = (input: unknown) => Answer;

const FT = 0.3048;
const INCH = 0.0254;
const PSI = 6894.757;
const ATM = 101325;
const GPM = 6.30902e-5;
const GALLON = 3.785412e-3;
const GRAVITY = 9.80665;

const celsius = (t_F: number): number => (t_F - 32) / 1.8;
const circle = (D: number): number => (Math.PI * D * D) / 4;
const bore = (size: PipeSize, dr: number): number => idNominal(outsideDiameter(size), dr);

interface PipeAsk {
  readonly size: readonly PipeSize[];
  readonly dr: number;
}

const PIPE = {
  'pipe.bore_mm': ({ size, dr }: PipeAsk) => size.map((s) => bore(s, dr) * 1000),
  'pipe.wall_in': ({ size, dr }: PipeAsk) =>
    size.map((s) => wallMin(outsideDiameter(s), dr) / INCH),
  'pipe.gallons': ({ size, dr, length_ft }: PipeAsk & { length_ft: number }) =>
    size.map((s) => (circle(bore(s, dr)) * length_ft * FT) / GALLON),
  'pipe.gpm': ({ size, dr, velocity_ft_s }: PipeAsk & { velocity_ft_s: number }) =>
    size.map((s) => (circle(bore(s, dr)) * velocity_ft_s * FT) / GPM),
};

interface Filling {
  readonly fluid: Fluid;
  readonly x: number;
  readonly t_C: number;
  readonly roughness_mm: number;
}

/** Pa lost over `L` m of bore D at flow Q. */
function loss(D: number, L: number, Q: number, f: Filling): number {
  const out = new Float64Array(2);
  const rho = mixDensity(f.fluid, f.t_C, f.x);
  const mu = mixViscosity(f.fluid, f.t_C, f.x);
  pipeLoss(Q, { D, A: circle(D), L, e: f.roughness_mm / 1000, rho, mu }, out);
  return out[0]!;
}

const FRICTION = {
  'friction.factor': ({ Re, e_D }: { Re: number; e_D: number }) => frictionFactor(Re, e_D),
  'friction.loss_kPa': (
    i: Filling & { size: PipeSize; dr: number; flow_gpm: number; length_ft: number },
  ) => loss(bore(i.size, i.dr), i.length_ft * FT, i.flow_gpm * GPM, i) / 1000,
  'friction.head_ft_per_100ft': (i: Filling & PipeAsk & { velocity_ft_s: number }) =>
    i.size.map((s) => {
      const D = bore(s, i.dr);
      const dp = loss(D, 100 * FT, circle(D) * i.velocity_ft_s * FT, i);
      return dp / (mixDensity(i.fluid, i.t_C, i.x) * GRAVITY) / FT;
    }),
  'friction.hose_kPa_per_m': (i: {
    bore_mm: number;
    flow_gpm: number;
    t_C: number;
    roughness_mm: number;
  }) => loss(i.bore_mm / 1000, 1, i.flow_gpm * GPM, { ...i, fluid: 'none', x: 0 }) / 1000,
};

interface Tee {
  readonly run_L_min: number;
  readonly branch_L_min: number;
  readonly b2: number;
}
const share = (i: Tee): number => i.branch_L_min / (i.run_L_min + i.branch_L_min);

const FITTING = {
  'fitting.teeConverging': (i: Tee) => [
    fitting.teeConvergingBranch(share(i), i.b2),
    fitting.teeConvergingRun(share(i)),
  ],
  'fitting.teeDiverging': (i: Tee & { angle_deg: number }) => [
    fitting.teeDivergingBranch(share(i), i.b2, i.angle_deg),
    fitting.teeDivergingRun(share(i), i.b2),
  ],
  'fitting.kFromCv': (i: { Cv: number; bore_in: number }) =>
    fitting.kFromCv(i.Cv, i.bore_in * INCH),
  'fitting.ballValveK': (i: { closed_deg: readonly number[]; K_open: number }) =>
    i.closed_deg.map((deg) => fitting.ballValveK(90 - deg, i.K_open)),
  'fitting.boreChange': ({ b }: { b: number }) => [fitting.contractionK(b), fitting.expansionK(b)],
};

interface Temperatures {
  readonly t_C: readonly number[];
}

/** C at which the law of density is highest, to a thousandth, by looking. */
function densestAt(): number {
  let best = 0;
  for (let k = 0; k <= 10000; k++) {
    if (water.density(k / 1000) > water.density(best)) best = k / 1000;
  }
  return best;
}

const WATER = {
  'water.density': ({ t_C }: Temperatures) => t_C.map(water.density),
  'water.viscosity_mPa_s': ({ t_C }: Temperatures) => t_C.map((t) => water.viscosity(t) * 1e3),
  'water.vapourPressure': ({ t_C }: Temperatures) => t_C.map(water.vapourPressure),
  'water.densestAt_C': () => densestAt(),
  'water.bulkModulus_GPa': ({ t_C }: Temperatures) =>
    t_C.map((t) => 1e-9 / water.compressibility(t)),
  'water.compressibility_per_TPa': ({ t_C }: Temperatures) =>
    t_C.map((t) => water.compressibility(t) * 1e12),
  'water.surfaceTension_mN_m': ({ t_C }: Temperatures) =>
    t_C.map((t) => water.surfaceTension(t) * 1e3),
  'water.expansion_1e4_K': ({ t_C }: Temperatures) => t_C.map((t) => water.expansion(t) * 1e4),
  'water.heat': ({ t_C }: Temperatures) =>
    t_C.flatMap((t) => [water.heatCapacity(t), water.conductivity(t)]),
};

interface Mix {
  readonly fluid: Fluid;
  readonly x: number;
}
interface Mixes {
  readonly fluid: Fluid;
  readonly x: readonly number[];
}

const ANTIFREEZE = {
  'antifreeze.properties': ({ fluid, x, t_C }: Mix & { t_C: number }) => [
    mixDensity(fluid, t_C, x),
    mixHeatCapacity(fluid, t_C, x),
    mixConductivity(fluid, t_C, x),
    mixViscosity(fluid, t_C, x) * 1e3,
  ],
  'antifreeze.freezePoint': ({ fluid, x }: Mixes) => x.map((one) => freezePoint_C(fluid, one)),
  'antifreeze.density': ({ fluid, x, t_C }: Mixes & { t_C: number }) =>
    x.map((one) => mixDensity(fluid, t_C, one)),
  'antifreeze.viscosity_mPa_s': ({ fluid, x, t_C }: Mixes & { t_C: number }) =>
    x.map((one) => 1e3 * mixViscosity(fluid, t_C, one)),
  'antifreeze.freezePointByVolume': ({ fluid, phi }: { fluid: Fluid; phi: readonly number[] }) =>
    phi.map((one) => freezePoint_C(fluid, massFraction(fluid, one))),
  'antifreeze.freezePoints': (i: { fluid: readonly Fluid[]; x: readonly number[] }) =>
    i.fluid.map((one, k) => freezePoint_C(one, i.x[k]!)),
  'antifreeze.volumeFraction': ({ fluid, x }: Mixes) => x.map((one) => volumeFraction(fluid, one)),
  'antifreeze.fractionFor': (i: { fluid: Fluid; freeze_F: readonly number[] }) =>
    i.freeze_F.map((t) => fractionForFreezePoint(i.fluid, celsius(t))),
  /** Volume of the mixture over the sum of what was poured, at 20 C. */
  'antifreeze.volumeRatio': ({ fluid, phi }: { fluid: Fluid; phi: number }) => {
    const x = massFraction(fluid, phi);
    const mass = ((1 - phi) * water.density(20)) / (1 - x);
    return mass / mixDensity(fluid, 20, x);
  },
  'antifreeze.bleedAndFeed_L': (i: { volume_L: number; from: number; to: number }) =>
    bleedAndFeedVolume(i.volume_L / 1000, i.from, i.to) * 1000,
  'antifreeze.relativeDensity': ({ fluid, x }: Mix) => mixDensity(fluid, 20, x) / water.density(20),
};

/** m: bore and wall of one inch SDR 11 pipe, which the checks of stretch are about. */
const D = bore('1', 11);
const WALL = wallMin(outsideDiameter('1'), 11);
const NU = 0.45;
const C1 = {
  free: elastic.c1Free,
  restrained: elastic.c1Restrained,
  joints: elastic.c1Joints,
} as const;

interface Stretch {
  readonly modulus_MPa: number;
  readonly rise_psi: number;
  readonly nu: number;
}

const strain = (held: keyof typeof C1, i: Stretch): number =>
  (C1[held](D, WALL, i.nu) * i.rise_psi * PSI * D) / (WALL * i.modulus_MPa * 1e6);

interface Deadhead {
  readonly length_ft: number;
  readonly modulus_MPa: number;
  readonly from_psi: number;
  readonly to_psi: number;
  readonly gas_L: number;
  readonly t_C: number;
}

/** L that walls, water and air take between two gauge pressures: walls, water, all. */
function deadhead(i: Deadhead): number[] {
  const litres = circle(D) * i.length_ft * FT * 1000;
  const rise = (i.to_psi - i.from_psi) * PSI;
  const wall = litres * rise * elastic.wallCompliance(D, WALL, i.modulus_MPa * 1e6, NU);
  const liquid = litres * rise * water.compressibility(i.t_C);
  const air = i.gas_L * (1 - elastic.squeezed(i.from_psi * PSI + ATM, i.to_psi * PSI + ATM, 1));
  return [wall, liquid, wall + liquid + air];
}

const ELASTIC = {
  'elastic.rating_psi': (i: { HDS_psi: number; dr: readonly number[] }) =>
    i.dr.map((dr) => elastic.pressureRating(i.HDS_psi, dr)),
  'elastic.ratingFactor': (i: {
    t_F: readonly number[];
    base73_psi: number;
    base140_psi: number;
  }) => i.t_F.map((t) => elastic.ratingTemperatureFactor(celsius(t), i.base73_psi, i.base140_psi)),
  'elastic.modulus_MPa': ({ after_h }: { after_h: readonly number[] }) =>
    after_h.map((h) => elastic.peModulus(h * 3600) / 1e6),
  'elastic.modulusFactor': ({ t_F }: { t_F: readonly number[] }) =>
    t_F.map((t) => elastic.peModulusFactor(celsius(t))),
  'elastic.areaStrain': (i: Stretch & { held: keyof typeof C1 }) => strain(i.held, i),
  'elastic.roomStrainFree': (i: Stretch) =>
    strain('free', i) +
    elastic.axialStrainFree(i.rise_psi * PSI, { D, e: WALL, E: i.modulus_MPa * 1e6, nu: i.nu }),
  'elastic.wallFactor': ({ nu }: { nu: number }) => {
    const c1 = elastic.c1Restrained(D, WALL, nu);
    return [c1, (c1 * D) / WALL];
  },
  'elastic.takenIn_L': (i: { gas_L: number; from_psi: number; to_psi: number; m: number }) =>
    i.gas_L * (1 - elastic.squeezed(i.from_psi * PSI + ATM, i.to_psi * PSI + ATM, i.m)),
  'elastic.deadhead_L': deadhead,
  'elastic.deadheadAll_L': (i: Deadhead) => deadhead(i)[2]!,
  'elastic.creep_1e9_Pa': ({ after_s }: { after_s: readonly number[] }) =>
    after_s.map((t) => elastic.creepCompliance(t) * 1e9),
  'elastic.creepModulus_GPa': ({ after_s }: { after_s: readonly number[] }) =>
    after_s.map((t) => 1e-9 / elastic.creepCompliance(t)),
  'elastic.decay': (i: { from_min: number; at_min: readonly number[] }) =>
    i.at_min.map((t) =>
      elastic.quasiElasticDecay(
        t * 60,
        i.from_min * 60,
        water.compressibility(10),
        (elastic.c1Restrained(D, WALL, NU) * D) / WALL,
      ),
    ),
  'elastic.kPaPerKelvin': (i: Temperatures & { modulus_MPa: number }) =>
    i.t_C.map((t) => {
      const liquid = { expansion: water.expansion(t), compliance: water.compressibility(t) };
      const compliance = elastic.wallCompliance(D, WALL, i.modulus_MPa * 1e6, NU);
      const expansion = elastic.roomExpansionRestrained(1.44e-4, NU);
      return elastic.pressurePerKelvin(liquid, { expansion, compliance }) / 1000;
    }),
};

/** Inputs come from a file, so their shape is the file's promise: hence the one cast. */
export const PIPES_AND_FLUIDS = {
  ...PIPE,
  ...FRICTION,
  ...FITTING,
  ...WATER,
  ...ANTIFREEZE,
  ...ELASTIC,
} as unknown as Readonly<Record<string, Call | undefined>>;
