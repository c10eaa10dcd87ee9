// Pinched pipes, holes and a well's pressure switch, for the expected values of cases.json, as one
// does them by hand. Nothing here is of sim/.
import { density } from './water.ts';

const circle = (D: number): number => (Math.PI * D * D) / 4;
/** Share of a sharp hole that its jet fills, common practice; kg/m3 of air. */
const [JET, AIR] = [0.6, 1.2];

/** Sharp-edged orifice in a straight pipe, by the share that is open: Idelchik. */
const orifice = (f: number): number => ((1 + 0.707 * Math.sqrt(1 - f) - f) / f) ** 2;

interface Kink {
  readonly shut: number;
  readonly bore_mm: number;
  readonly flow_L_s: number;
}

/** Pa. */
function kink({ shut, bore_mm, flow_L_s }: Kink): number {
  const V = flow_L_s / 1000 / circle(bore_mm / 1000);
  return (orifice(1 - shut) * density(20) * V * V) / 2;
}

interface Hole {
  readonly kPa: number;
  readonly bore_mm: number;
  readonly grows_per_100kPa?: number;
  readonly air?: boolean;
}

/** L/min by Torricelli, of an area that is straight in the pressure. */
function hole({ kPa, bore_mm, grows_per_100kPa = 0, air = false }: Hole): number {
  const area = circle(bore_mm / 1000) * (1 + (grows_per_100kPa * kPa) / 100);
  const jet = Math.sqrt((2 * 1000 * Math.abs(kPa)) / (air ? AIR : density(20)));
  return 60000 * JET * area * jet;
}

export interface Well {
  readonly high_kPa: number;
  readonly low_kPa: number;
  readonly drawdown_L: number;
  readonly pump_L_min: number;
  readonly draw_L_s: number;
}

/** s of falling and of rising again. */
const period = ({ drawdown_L, pump_L_min, draw_L_s }: Well): number =>
  drawdown_L / draw_L_s + drawdown_L / (pump_L_min / 60 - draw_L_s);

export const DEFECTS = {
  'defects.orifice': ({ shut }: { shut: readonly number[] }) => shut.map((s) => orifice(1 - s)),
  'defects.kink_Pa': kink,
  'defects.hole_L_min': hole,
  'defects.period_s': period,
  'defects.swing_kPa': ({ low_kPa, high_kPa }: Well) => [low_kPa, high_kPa],
};
