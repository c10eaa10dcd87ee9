// Tasks at the loop: tests and pressure, samples, filters, its own pump, the second visit.
import { ceil, max } from '../base/math.ts';
import { slower } from './finish.ts';
import { NOTHING } from './goals.ts';
import { wantedAtEnd } from './handover.ts';
import type { Piece } from './graph.ts';
import type { Know } from './know.ts';
import { waysOf, type Rig } from './map.ts';
import { onceMore } from './passes.ts';
import { each, isLetOff, letOff, lines, notes, ofKind, testBand, type Part } from './part.ts';
import { goHome } from './phases-site.ts';
import { await_, note, onlyIf, pressTo, rest, stand, type Step } from './tasks.ts';

/** s. Until a reading across the coil stands still. */
const RUNS_STILL = 60;

export function run(part: Part): Step[] {
  const { kit } = part;
  if (kit.loopPump === null) return notes(part);
  return [
    stand(each(ofKind(kit, 'lock'), 0)),
    stand([[kit.loopPump, 1]]),
    rest('loop_pump_runs', RUNS_STILL),
    ...notes(part),
  ];
}

/** Pa to which a loop is pressed: what is asked, and what plastic gives way by. */
function aimOf({ rig, asked }: Part): number | null {
  const aim = rig.briefing.aims.find(({ kind }) => kind === 'pressure')?.numbers['aim_kPa'];
  const band = asked.find(({ kind, numbers }) => kind === 'held' && (numbers['from_kPa'] ?? 0) > 0);
  const from = band?.numbers['from_kPa'];
  const to = band?.numbers['to_kPa'];
  if (from !== undefined && to !== undefined) return (from + 0.57 * (to - from)) * 1000;
  return aim === undefined ? null : (aim + 15) * 1000;
}

/** L in the pail that count as enough, m. */
const PAIL_LOW = 0.05;

const phaseOf = ({ asked }: Part): string => asked[0]?.phase ?? '';

function press(part: Part): Step[] {
  const { kit, asked } = part;
  const { handPump, loopGauge, jug, pail } = kit;
  if (handPump === null || loopGauge === null) return [];
  const aim = aimOf(part);
  const litres = asked.find(({ kind, names }) => kind === 'passed' && names['link'] === handPump.id)
    ?.numbers['litres'];
  const fill: Step = (know) => {
    if (jug === null || know.has('carried') || (know.number(pail) ?? 1) > PAIL_LOW) return null;
    know.keep('carried');
    return [know.to(jug, 2)];
  };
  const stroke: Step = (know) => {
    if (litres === undefined || know.has('stroked')) return null;
    know.keep('stroked');
    return [
      { kind: 'stroke', pump: handPump.id, strokes: ceil(litres / 1000 / handPump.stroke) + 1 },
    ];
  };
  if (aim === null) return [fill, stroke, rest('gives_way', 30)];
  const up = pressTo(phaseOf(part), handPump.id, loopGauge, aim);
  return [fill, up, rest('gives_way', 60), up, rest('gives_way_again', 60), up];
}

export function pressure(part: Part): Step[] {
  const stood = part.asked.flatMap(({ kind, names, numbers }): [string, number][] =>
    kind === 'stood' ? [[names['control'] ?? '', numbers['at'] ?? 0]] : [],
  );
  const held = max(
    0,
    ...part.asked.map(({ kind, numbers }) => (kind === 'held' ? (numbers['for_s'] ?? 0) + 10 : 0)),
  );
  const { handPump } = part.kit;
  return [
    (know) => (know.pumpOn ? [know.to(know.rig.pump, 0)] : null),
    ...press(part).slice(0, 1),
    stand((know) => wantedAtEnd(know).filter(([id]) => know.scene.valves.some((v) => v.id === id))),
    stand(stood),
    ...(handPump === null ? [] : press(part).slice(1)),
    rest('stands', held),
    ...notes(part),
  ];
}

export function secondVisit(part: Part): Step[] {
  const written = lines(part);
  const [first, ...others] = written.length > 1 ? written : ['', ...written];
  return [
    ...goHome(part),
    note(first ?? ''),
    ...press(part).slice(1, 2),
    rest('stands', 30),
    ...others.map(note),
    onlyIf(runsAtEnd, stand(each(ofKind(part.kit, 'lock'), 0))),
    ...runsAtLast(part),
  ];
}

/** True where the machine's own pump is to run when all is done. */
const runsAtEnd = (know: Know): boolean =>
  know.habits.handsOver &&
  wantedAtEnd(know).some(([id, to]) => id === know.kit.loopPump && to === 1);

/** The machine's own pump as it is handed over, and what it takes from the gauge's place. */
function runsAtLast(part: Part): Step[] {
  const { loopPump, loopGauge, handPump } = part.kit;
  const aim = part.rig.briefing.aims.find(({ kind }) => kind === 'pressure')?.numbers['aim_kPa'];
  if (loopPump === null) return [];
  const up =
    aim === undefined || loopGauge === null || handPump === null
      ? []
      : [pressTo('at_last', handPump.id, loopGauge, aim * 1000)];
  return [stand([[loopPump, 1]]), rest('runs_at_last', RUNS_STILL), ...up].map((step) =>
    onlyIf(runsAtEnd, step),
  );
}

/** s for which an instrument is left in the sample. */
const READS_IN = 5;

export function verify({ asked, kit }: Part): Step[] {
  const [cup] = ofKind(kit, 'cup');
  if (cup === undefined) return [];
  return asked.flatMap(({ kind, names, numbers }): Step[] => {
    if (kind !== 'stood' || names['control'] !== cup) return [];
    const at = numbers['at'] ?? 1;
    return [stand([[cup, at]]), rest(`cup_${at}`, READS_IN), stand([[cup, 0]])];
  });
}

/** Another bag or a clean mesh: the pump at rest, and the housing shut in meanwhile. */
export function housings({ kit, asked, habits }: Part): Step[] {
  if (!habits.minds_filter) return [];
  return asked.flatMap(({ kind, names, numbers }): Step[] => {
    const control = names['control'] ?? '';
    if (kind !== 'stood' || !ofKind(kit, 'housing').includes(control)) return [];
    const shut: string[] = [];
    return [
      (know) => (know.pumpOn ? [know.to(know.rig.pump, 0)] : know.pumpStill ? null : []),
      (know) => {
        const ways = know.rig.ways.flatMap(({ open }) => [...open.keys()]);
        const open = [...ways, ...know.rig.suction].filter((id) => know.at(id) === 90);
        shut.push(...new Set(open));
        return null;
      },
      stand(() => each(shut, 0)),
      stand([[control, numbers['at'] ?? 1]]),
      stand(() => each(shut, 90)),
    ];
  });
}

/** Water from the tap stops; then what its counter says. */
export function flushed(part: Part): Step[] {
  const stops = stand(part.rig.prime.slice(-1).map((id) => [id, 0] as const));
  return [stops, ...housings(part), rest('counter', 8), ...notes(part)];
}

/** Valves that shut the loop in: the last before it, and the first behind it. */
function loopValves(rig: Rig): string[] {
  const [way] = rig.ways;
  const handles = (pieces: readonly Piece[]): string[] =>
    pieces.flatMap(({ link, deg }) => (deg === 90 ? [link.id] : []));
  const before = handles(way?.out.pieces ?? []).at(-1);
  const behind = handles(way?.back.pieces ?? [])[0];
  return [before, behind].flatMap((id) => id ?? []);
}

/** Pa over the least that is asked, since plastic gives way while a test stands. */
const OVER = 40000;
/** Pa to which a cart's pump presses before the hand pump takes over. */
const BY_PUMP = 100000;

/** Shut bit by bit: water that is stopped at once strikes. */
function slowly(valve: string): Step {
  return (know) => {
    const next = slower(know.at(valve) ?? 0);
    return next === null ? null : [know.to(valve, next)];
  };
}

/** s for which a pump has to run without air, and the longest that is waited for it. */
const QUIET_FOR = 4;
const QUIET_MOST = 40;
/** How often a loop is filled again where the pump could not press it up. */
const FILLS = 3;

/** The last pass of filling once more, and all that comes after it. */
function fillAgain(know: Know): void {
  onceMore(know, 'fill');
  for (const key of ['task_leak_test_tap', 'task_leak_test']) know.mind.delete(key);
  know.keep('fills', (know.mind.get('fills') ?? 0) + 1);
}

/** Shut in against what filled it; where that is not enough, by hand. */
function pressUp({ kit, rig, asked }: Part): Step[] {
  const band = testBand(asked);
  const { loopGauge, handPump } = kit;
  if (band === null || loopGauge === null) return [];
  const shown = (know: Know): number => know.number(loopGauge) ?? 0;
  const filled = (know: Know): boolean => know.has('fill_0');
  const only = (step: Step): Step => onlyIf(filled, step);
  const waste = waysOf(rig, rig.field, 'waste')[0]?.back.pieces.at(-1)?.link.id;
  const isTap = (know: Know): boolean => !know.pumpOn;
  const isByTap = (know: Know): boolean => know.has('by_tap');
  const isByHand = (know: Know): boolean => !isByTap(know) && handPump !== null;
  const byTap = (step: Step): Step => only(onlyIf(isByTap, step));
  const byHand = (step: Step): Step => only(onlyIf(isByHand, step));
  const middle = band.from + 0.5 * (band.to - band.from);
  const up = handPump === null ? null : pressTo('test', handPump.id, loopGauge, middle);
  const by = up === null ? [] : [up, rest('gives', 60), up, rest('gives_more', 30), up];
  return [
    only((know) => {
      if (isTap(know)) know.keep('by_tap');
      return null;
    }),
    byHand(stand(each(kit.taps, 0))),
    // A jet into the tank takes air under: a pump that has it in its casing presses nothing.
    byHand(await_('runs_quiet', (know) => know.note === 'steady', QUIET_FOR, QUIET_MOST)),
    only(waste === undefined ? () => null : slowly(waste)),
    byTap(await_('up', (know) => shown(know) >= band.from + OVER, 150, 600)),
    byHand(await_('up', (know) => shown(know) >= BY_PUMP, 5, 60)),
    byHand((know) => {
      if (shown(know) >= BY_PUMP || (know.mind.get('fills') ?? 0) >= FILLS) return null;
      fillAgain(know);
      return NOTHING;
    }),
    only(stand(each(loopValves(rig), 0))),
    byTap(stand(rig.prime.slice(-1).map((id) => [id, 0] as const))),
    byHand((know) => (know.pumpOn ? [know.to(rig.pump, 0)] : null)),
    byHand(stand(waste === undefined ? [] : [[waste, 90]])),
    byHand((know) => {
      if (kit.jug === null || know.has('water_carried')) return null;
      know.keep('water_carried');
      return [know.to(kit.jug, 1)];
    }),
    ...by.map(byHand),
  ];
}

/** What is left in the pail is water: back into the tank, before mix is carried there. */
function emptied({ kit, rig }: Part): Step {
  const from = kit.handPump?.ends[0];
  const back = kit.devices('carry').find(({ places: [a, b] }) => a === from && b === rig.tank.id);
  return (know) => {
    if (back === undefined || know.has('pail_back') || !know.has('water_carried')) return null;
    know.keep('pail_back');
    return [know.to(back.id, 1)];
  };
}

/** A test that stands for its time: watched, written down, and let off where that is asked. */
export function leakTest(part: Part): Step[] {
  const { asked, kit, habits } = part;
  const band = testBand(asked);
  const for_s = band?.for_s ?? 0;
  const [first, second] = lines(part);
  const { loopGauge } = kit;
  const stands = (know: Know): boolean => (know.number(loopGauge) ?? 0) >= (band?.from ?? 0);
  const off = asked.some(isLetOff);
  return [
    ...pressUp(part),
    await_('band', stands, 3, 60),
    note(first ?? ''),
    ...(habits.tests ? [await_('stood', stands, for_s + 10, for_s + 60)] : []),
    note(second ?? ''),
    ...(off ? letOff(part) : []),
    emptied(part),
  ];
}
