// Laws of motors and of what feeds them.
import * as motor from '../../laws/motor.ts';
import { law, type LawEntry } from './entry.ts';

const plate = {
  ...{ P_W: 'W', V_V: 'V', efficiency: '1' },
  ...{ magnetising_share: '1', locked_times: '1' },
} as const;
const amps = { working: 'A', magnetising: 'A', full: 'A', locked: 'A' } as const;
const KLOSS = 'Kloss 1910, recalled';

interface Plate {
  readonly P_W: number;
  readonly V_V: number;
  readonly efficiency: number;
  readonly magnetising_share: number;
  readonly locked_times: number;
}

function made(v: Plate): motor.Motor {
  const { efficiency, magnetising_share, locked_times: locked } = v;
  return motor.makeMotor({ P: v.P_W, V: v.V_V, efficiency, magnetising_share, locked });
}

export const MOTOR_LAWS: Readonly<Record<string, LawEntry>> = {
  'motor.typicalMotor': law(
    { P_W: 'W' },
    { efficiency: '1', power_factor: '1' },
    'fit to NEC table 430.248',
    (v) => motor.typicalMotor(v.P_W),
  ),
  'motor.makeMotor': law(plate, amps, 'definition', (v) => {
    const { working, magnetising, full, locked } = made(v);
    return { working, magnetising, full, locked };
  }),
  'motor.motorTorque': law({ slip: '1', v: '1' }, '1', KLOSS, (x) =>
    motor.motorTorque(x.slip, x.v),
  ),
  'motor.speedAt': law({ slip: '1' }, '1', 'definition', (x) => motor.speedAt(x.slip)),
  'motor.motorSlip': law({ load: '1', v: '1' }, '1', KLOSS, (x) => motor.motorSlip(x.load, x.v)),
  'motor.motorAmps': law(
    { ...plate, slip: '1', v: '1' },
    'A',
    'circuit of an induction motor, in part a fit',
    (x) => motor.motorAmps(made(x), x.slip, x.v),
  ),
  'motor.cordResistance': law({ L_m: 'm', copper_m2: 'm2' }, 'ohm', 'IEC 60028', (v) =>
    motor.cordResistance(v.L_m, v.copper_m2),
  ),
  'motor.generatorVolts': law(
    { V_V: 'V', droop: '1', S_VA: 'VA', Y_A_V: 'A/V' },
    'V',
    'droop by definition, beyond the rating a fit',
    (v) => motor.generatorVolts(v.V_V, v.droop, v.S_VA, v.Y_A_V),
  ),
  'motor.breakerImage': law(
    { image: '1', times_rating: '1', t_s: 's' },
    '1',
    'fit within the limits of UL 489',
    (v) => motor.breakerImage(v.image, v.times_rating, v.t_s),
  ),
  'motor.breakerTime': law(
    { times_rating: '1' },
    's, none where it holds',
    'fit within the limits of UL 489',
    (v) => motor.breakerTime(v.times_rating),
  ),
  'motor.groundFaultTime': law({ leak_A: 'A' }, 's, none where it holds', 'UL 943', (v) =>
    motor.groundFaultTime(v.leak_A),
  ),
};
