// Where each part's name stands, by role: two tables, one for each shape of the drawing.
import type { Plan } from './plan.ts';
import type { Align, Role } from './types.ts';

export interface Spot {
  readonly role: Role;
  /** Top left corner and size; leader's two ends (none = no leader). */
  readonly box: readonly [number, number, number, number];
  readonly align: Align;
  readonly leader?: readonly [number, number, number, number];
}

/** Names on the wide drawing. `g` = gantry's height, `s` = suction's, `l` = stub's. */
export function wideSpots(plan: Plan, g: number, s: number, l: number): Spot[] {
  const { x } = plan;
  const c = plan.control / 2;
  const over = g - 78;
  return [
    {
      role: 'return_gauge',
      box: [12, g - 100, 128, 24],
      align: 'right',
      leader: [142, g - 88, 152, g - 84],
    },
    {
      role: 'return_valve',
      box: [226, over, 130, 24],
      align: 'left',
      leader: [x.returnValve, over + 26, x.returnValve, g - 20],
    },
    {
      role: 'waste_valve',
      box: [80, g + 40, 72, 46],
      align: 'center',
      leader: [x.wasteValve, g + 38, x.wasteValve, g + 20],
    },
    {
      role: 'fill_valve',
      box: [x.fillValve - 45, over, 90, 24],
      align: 'center',
      leader: [x.fillValve, over + 26, x.fillValve, g - 20],
    },
    {
      role: 'tank_level',
      box: [214, g + 70, 56, 46],
      align: 'right',
      leader: [272, g + 82, x.tube - 7, g + 82],
    },
    {
      role: 'tank',
      box: [214, g + 150, 54, 24],
      align: 'right',
      leader: [270, g + 162, x.tankL + 1, g + 162],
    },
    {
      role: 'suction_valve',
      box: [546, s - 92, 138, 24],
      align: 'left',
      leader: [x.suctionValve, s - 66, x.suctionValve, s - 22],
    },
    {
      role: 'pump',
      box: [660, s - 130, 56, 24],
      align: 'right',
      leader: [x.pump - 12, s - 104, x.pump - 10, s - 36],
    },
    {
      role: 'discharge_valve',
      box: [x.dischargeValve - 128, over, 146, 24],
      align: 'right',
      leader: [x.dischargeValve, over + 26, x.dischargeValve, g - 20],
    },
    {
      role: 'discharge_gauge',
      box: [910, g - 112, 148, 24],
      align: 'left',
      leader: [907, g - 100, x.discharge + 30, g - 84],
    },
    {
      role: 'flow_meter',
      box: [966, g - 62, 110, 24],
      align: 'left',
      leader: [962, g - 48, 950, g - 22],
    },
    {
      role: 'supply_hose',
      box: [1060, l - 66, 120, 24],
      align: 'left',
      leader: [1066, l - 40, 1036, plan.line - 8],
    },
    {
      role: 'loop_supply_valve',
      box: [x.supplyValve - 84, l - c - 62, 168, 24],
      align: 'center',
      leader: [x.supplyValve, l - c - 36, x.supplyValve, l - 16],
    },
    {
      role: 'loop_return_valve',
      box: [x.returnStub - 40, l - c - 108, 90, 46],
      align: 'left',
      leader: [x.returnStub, l - c - 60, x.returnStub, l - 16],
    },
    {
      role: 'return_sight',
      box: [76, g + 128, 94, 66],
      align: 'right',
      leader: [171, g + 160, 180, g + 160],
    },
    {
      role: 'return_hose',
      box: [612, plan.line + 14, 104, 24],
      align: 'left',
      leader: [660, plan.line + 14, 660, plan.line + 2],
    },
  ];
}

export function tallSpots(plan: Plan, g: number, s: number, l: number): Spot[] {
  const { x } = plan;
  const c = plan.control / 2;
  const over = g - 128;
  return [
    { role: 'return_gauge', box: [20, 8, 250, 38], align: 'left' },
    { role: 'discharge_gauge', box: [500, 8, 270, 38], align: 'right' },
    {
      role: 'return_valve',
      box: [218, over, 112, 76],
      align: 'left',
      leader: [x.returnValve + 8, over + 80, x.returnValve + 2, g - 26],
    },
    {
      role: 'fill_valve',
      box: [342, over, 90, 76],
      align: 'left',
      leader: [x.fillValve, over + 80, x.fillValve, g - 26],
    },
    {
      role: 'discharge_valve',
      box: [470, over, 160, 76],
      align: 'right',
      leader: [x.dischargeValve - 30, over + 80, x.dischargeValve - 4, g - 26],
    },
    {
      role: 'waste_valve',
      box: [60, g + 88, 90, 76],
      align: 'left',
      leader: [x.wasteValve, g + 86, x.wasteValve, g + 26],
    },
    {
      role: 'suction_valve',
      box: [452, s - 152, 132, 76],
      align: 'left',
      leader: [x.suctionValve + 4, s - 74, x.suctionValve + 2, s - 26],
    },
    {
      role: 'pump',
      box: [514, plan.line - 96, 90, 38],
      align: 'left',
      leader: [572, plan.line - 94, x.pump - 14, s + 44],
    },
    {
      role: 'tank_level',
      box: [274, plan.line - 96, 154, 38],
      align: 'left',
      leader: [276, plan.line - 94, x.tube + 4, plan.line - 146],
    },
    {
      role: 'loop_return_valve',
      box: [8, l - c - 84, 196, 76],
      align: 'left',
      leader: [x.returnStub, l - c - 6, x.returnStub, l - 24],
    },
    {
      role: 'loop_supply_valve',
      box: [x.supplyValve - 50, l - c - 122, 112, 114],
      align: 'left',
      leader: [x.supplyValve, l - c - 6, x.supplyValve, l - 24],
    },
    {
      role: 'flow_meter',
      box: [262, plan.line - 2, 112, 72],
      align: 'right',
      leader: [376, plan.line + 66, 398, plan.line + 100],
    },
  ];
}
