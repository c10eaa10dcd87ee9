// The rival of the steady solver: EPANET [EPANET2.2], driven through its toolkit. Each
// scenario is put to it part by part, and it finds flows and heads by its own method; only the
// law of each link is matched to ours, at the flow that EPANET itself finds.
import {
  AnalysisStatistic,
  CurveType,
  FlowUnits,
  HeadLossType,
  InitHydOption,
  LinkProperty,
  LinkType,
  NodeProperty,
  Option,
  Project,
  type Workspace,
} from 'epanet-js';
import { ballValveK, SHUT_DEG } from '../../sim/laws/fitting.ts';
import { density, viscosity } from '../../sim/laws/water.ts';
import type { LinkSpec } from '../../sim/index.ts';
import type { Network, PumpLaw } from '../tools/networks.ts';
import { addDemands, addNodes } from './networks-nodes.ts';

const G = 9.80665;
/** m2/s. EPANET's viscosity is relative to 1.1e-5 ft2/s. */
const NU_UNIT = 1.1e-5 * 0.3048 * 0.3048;
/** m. Length of a link that is all local loss: its friction is a millionth of that. */
const NO_LENGTH = 1e-6;
/** mm. The toolkit takes no roughness of 0. */
const SMOOTH = 1e-6;
/** m3/s. Links that pass less are not matched: rounding of heads outweighs what they lose. */
const STILL = 2e-7;
/** m. Heads nearer than this (0.001 Pa) are the same to EPANET, which balances no finer. */
const SAME_HEAD = 1e-7;
/** m3/s. EPANET lets a check valve stand open up to 2.8e-6 backwards. */
const BACKWARDS = 1e-8;

/** [Churchill1977] written anew, with the host's own functions: an independent method. */
export function churchill(Re: number, e_D: number): number {
  const A = Math.pow(2.457 * Math.log(1 / (Math.pow(7 / Re, 0.9) + 0.27 * e_D)), 16);
  const B = Math.pow(37530 / Re, 16);
  return 8 * Math.pow(Math.pow(8 / Re, 12) + Math.pow(A + B, -1.5), 1 / 12);
}

/** What a link of the scenario is to EPANET. */
interface Part {
  readonly id: string;
  readonly index: number;
  readonly from: number;
  readonly to: number;
  /** m. */
  readonly bore: number;
  readonly length: number;
  readonly rough: number;
  readonly K: number;
  readonly matched: boolean;
  readonly oneWay: boolean;
  /** Share of length and loss that EPANET is given so that it loses what ours would. */
  scale: number;
}

export interface Rival {
  /** m3/s by link; Pa gauge by node, EPANET's head turned by our density. */
  readonly flow: ReadonlyMap<string, number>;
  readonly pressure: ReadonlyMap<string, number>;
  /** By pipe: Reynolds number, EPANET's own factor over ours. */
  readonly ratio: ReadonlyMap<string, readonly [Re: number, ratio: number]>;
}

export interface Told {
  /** Lengths, roughness and K as the scenario has them; EPANET's own law of friction. */
  readonly plain: Rival;
  readonly matched: Rival;
  readonly rounds: number;
  /** Largest mismatch that is left between EPANET's loss and ours at its flow, relative. */
  readonly left: number;
}

/** K of a part without length as its control stands; null where it is shut. */
function lossK(spec: LinkSpec): number | null {
  switch (spec.kind) {
    case 'valve':
      return spec.start_deg <= SHUT_DEG ? null : ballValveK(spec.start_deg, spec.loss_k_open);
    case 'coupling':
    case 'check_valve':
      return spec.loss_k;
    case 'filter':
      return spec.loss_k / (1 - spec.start_blocked) / (1 - spec.start_blocked);
    default:
      throw new Error(`${spec.kind} has no counterpart`);
  }
}

const nodeOf = (end: string): string => end.split('.')[0]!;

/** Three points make EPANET fit H0 - B Q^C, which is what the network's pump was sampled from. */
function addPump(model: Project, index: number, id: string, law: PumpLaw): void {
  model.addCurve(id);
  const curve = model.getCurveIndex(id);
  const flows = [0, law.Q_max / 2, 0.96 * law.Q_max];
  const heads = flows.map((q) => law.H0 * (1 - Math.pow(q / law.Q_max, law.c)));
  model.setCurve(curve, flows, heads);
  model.setCurveType(curve, CurveType.PumpCurve);
  model.setHeadCurveIndex(index, curve);
}

function addLink(model: Project, network: Network, spec: LinkSpec): Part {
  const from = nodeOf(spec.from);
  const to = nodeOf(spec.to);
  const conduit = spec.kind === 'pipe' || spec.kind === 'hose';
  const K = conduit || spec.kind === 'pump' ? 0 : lossK(spec);
  const kind =
    spec.kind === 'pump'
      ? LinkType.Pump
      : spec.kind === 'check_valve'
        ? LinkType.CVPipe
        : LinkType.Pipe;
  const index = model.addLink(spec.id, kind, from, to);
  const part = {
    id: spec.id,
    index,
    from: model.getNodeIndex(from),
    to: model.getNodeIndex(to),
    bore: spec.bore_mm / 1000,
    length: conduit ? spec.length_m : NO_LENGTH,
    rough: conduit ? spec.roughness_mm : 0,
    K: conduit ? spec.loss_k : (K ?? 0),
    matched: spec.kind !== 'pump' && K !== null,
    oneWay: spec.kind === 'check_valve',
    scale: 1,
  };
  if (spec.kind === 'pump') addPump(model, index, spec.id, network.pumps.get(spec.id)!);
  else give(model, part);
  if (K === null) model.setLinkValue(index, LinkProperty.InitStatus, 0);
  return part;
}

function give(model: Project, { index, length, bore, rough, K, scale }: Part): void {
  const e = Math.max(SMOOTH, rough);
  model.setPipeData(index, length * scale, bore * 1000, e, K * scale);
}

/** Head that our laws lose in a part at flow q, m. */
function wanted({ bore, length, rough, K }: Part, q: number, nu: number): number {
  const V = (4 * Math.abs(q)) / (Math.PI * bore * bore);
  const f = length === NO_LENGTH ? 0 : churchill((V * bore) / nu, rough / 1000 / bore);
  // Local losses turn linear below 0.01 m/s, so that their slope is finite at rest.
  const local = K * Math.sqrt(1 + (0.01 / V) * (0.01 / V));
  return (((f * length) / bore + local) * V * V) / (2 * G);
}

interface Run {
  readonly model: Project;
  readonly network: Network;
  readonly parts: readonly Part[];
  readonly rho: number;
  readonly nu: number;
  readonly accuracy: number;
}

/** EPANET's tolerances leave check valves open that flow back and shut below 0.15 mm of head. */
function checkOneWay(id: string, q: number, lost: number): void {
  if (q < -BACKWARDS) throw new Error(`${id} passes backwards: ${q} m3/s`);
  if (q < BACKWARDS && lost > SAME_HEAD) throw new Error(`${id} is shut against ${lost} m`);
}

function solve({ model, network, parts, rho, nu, accuracy }: Run): Rival {
  model.openH();
  model.initH(InitHydOption.InitFlow);
  model.runH();
  const error = model.getStatistic(AnalysisStatistic.RelativeError);
  if (!(error <= accuracy)) throw new Error(`out of balance: relative error ${error}`);
  const flow = new Map<string, number>();
  const pressure = new Map<string, number>();
  const ratio = new Map<string, readonly [number, number]>();
  for (const part of parts) {
    const q = model.getLinkValue(part.index, LinkProperty.Flow) / 1000;
    const lost =
      model.getNodeValue(part.from, NodeProperty.Head) -
      model.getNodeValue(part.to, NodeProperty.Head);
    if (part.oneWay) checkOneWay(part.id, q, lost);
    flow.set(part.id, q);
    if (!part.matched || Math.abs(q) < STILL) continue;
    const Re = (4 * Math.abs(q)) / (Math.PI * part.bore * nu);
    const ours = wanted(part, q, nu);
    const theirs = lost * Math.sign(q);
    ratio.set(part.id, [Re, Math.abs(theirs - ours) < SAME_HEAD ? 1 : theirs / ours]);
  }
  for (const node of network.scenario.nodes) {
    const at = model.getNodeIndex(node.id);
    const head = model.getNodeValue(at, NodeProperty.Head);
    const z = node.kind === 'tank' ? node.floor_m + node.start_level_mm / 1000 : node.elevation_m;
    pressure.set(node.id, rho * G * (head - z));
  }
  model.closeH();
  return { flow, pressure, ratio };
}

/** Mismatch of a link's loss at which matching ends, or how often it is tried. */
const MATCHED = 1e-6;
const ROUNDS_MAX = 120;
/** Share of a mismatch that is put right at once, in ln; less where the factor rises with Re. */
const GO = 1;
const GO_BRIDGE = 0.5;

function match(run: Run): { rival: Rival; rounds: number; left: number } {
  let rival = solve(run);
  let left = Infinity;
  let rounds = 0;
  for (; rounds < ROUNDS_MAX && left > MATCHED; rounds++) {
    for (const part of run.parts) {
      const found = rival.ratio.get(part.id);
      if (found === undefined) continue;
      const [Re, ratio] = found;
      part.scale *= Math.pow(ratio, Re > 1500 && Re < 6000 ? -GO_BRIDGE : -GO);
      give(run.model, part);
    }
    rival = solve(run);
    left = Math.max(...[...rival.ratio.values()].map(([, r]) => Math.abs(r - 1)));
  }
  return { rival, rounds, left };
}

interface Setting {
  readonly accuracy: number;
  /** Trials between two looks at check valves and pumps, and how long it goes on looking. */
  readonly every: number;
  readonly upTo: number;
}

/** Tried in turn, since EPANET's looks at check valves now and then chase each other. */
const SETTINGS: readonly Setting[] = [
  { accuracy: 1e-8, every: 2, upTo: 10 },
  { accuracy: 1e-5, every: 10, upTo: 100 },
];

/** Builds the network in EPANET and lets `put` ask it. */
export function ask<T>(on: Workspace, network: Network, put: (run: Run) => T, set: Setting): T {
  const t = network.scenario.temperature_C;
  const rho = density(t);
  const nu = viscosity(t) / rho;
  const model = new Project(on);
  model.init('report.rpt', 'out.bin', FlowUnits.LPS, HeadLossType.DW);
  try {
    addNodes(model, network, rho);
    addDemands(model, network);
    const parts = network.scenario.links
      .filter(({ kind }) => kind !== 'fixed_flow')
      .map((spec) => addLink(model, network, spec));
    model.setOption(Option.SpViscos, nu / NU_UNIT);
    model.setOption(Option.Accuracy, set.accuracy);
    model.setOption(Option.CheckFreq, set.every);
    model.setOption(Option.MaxCheck, set.upTo);
    model.setOption(Option.Trials, 500);
    return put({ model, network, parts, rho, nu, accuracy: set.accuracy });
  } finally {
    model.close();
  }
}

/** What EPANET says, or why it comes to no balance of its own, whatever it is set to. */
function answer<T>(workspace: Workspace, network: Network, put: (run: Run) => T): T | string {
  let said = '';
  for (const setting of SETTINGS) {
    try {
      return ask(workspace, network, put, setting);
    } catch (error) {
      said = error instanceof Error ? error.message : String(error);
    }
  }
  return said;
}

/** Puts a network to EPANET as it is, with EPANET's own laws of friction and local loss. */
export const askPlain = (workspace: Workspace, network: Network): Rival | string =>
  answer(workspace, network, solve);

/** Puts a network to EPANET, first as it is, then with its losses matched. */
export const askRival = (workspace: Workspace, network: Network): Told | string =>
  answer(workspace, network, (run) => {
    const plain = solve(run);
    const { rival, rounds, left } = match(run);
    return { plain, matched: rival, rounds, left };
  });
