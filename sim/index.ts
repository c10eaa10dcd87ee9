// The door: what the rest of the project may use of the engine.
export type { Command } from './command.ts';
export { CommandSchema } from './command.ts';
export {
  BEYOND,
  HAZARDS,
  EVENTS,
  type BeyondLimit,
  type Fact,
  type HazardKind,
  type EventKind,
  type Measures,
} from './fact.ts';
export * from './lens.ts';
export {
  InputFaults,
  outcomesOf,
  parseOwnScenario,
  parseScenario,
  scenarioFaults,
  scenarioHash,
  scenarioJsonSchema,
  type ConduitSpec,
  type DeviceKind,
  type DeviceSpec,
  type Fault,
  type InstrumentSpec,
  type JobSpec,
  type LinkSpec,
  type MilestoneKind,
  type MilestoneSpec,
  type NodeSpec,
  type OutcomeSpec,
  type PumpSpec,
  type Scenario,
  type LineKind,
  type SheetKind,
  type SheetLine,
  type TankSpec,
} from './scenario.ts';
export {
  clone,
  createWorld,
  hash,
  isOver,
  loadState,
  saveState,
  step,
  tickSeconds,
  type World,
} from './world.ts';
export { residualOf } from './derived.ts';
export { AS_WRITTEN, formOf } from './form.ts';
export { askedAt } from './scenario-job.ts';
export { isAway } from './night.ts';
export { service } from './service.ts';
export { snapshot, timeOf, xray } from './see.ts';
export { measure, truth } from './see-truth.ts';
export { P_ATM } from './base/units.ts';
export { RatingSchema } from './record-own.ts';
export {
  advance,
  recordOf,
  replay,
  resumeRun,
  saveRun,
  startRun,
  type Replay,
  type Run,
  type RunRecord,
  type SavedRun,
} from './run.ts';
export { DEVICE_KINDS } from './scenario-devices.ts';
export { ENGINE } from './version.ts';
export {
  DIMENSIONS,
  parseRules,
  QUANTITIES,
  rulesFaults,
  rulesJsonSchema,
  type Dimension,
  type Quantity,
  type Rules,
} from './rules.ts';
export {
  REASONS,
  type CriticalError,
  type Deduction,
  type DimensionMark,
  type MilestoneMark,
  type Reason,
  type Score,
} from './marks.ts';
export { airShare, isOfHandOver } from './deductions.ts';
export { score } from './score.ts';
export { LINE_STATES, type SheetMark } from './jobsheet/judge.ts';
export { workedOut } from './jobsheet/worked-out.ts';
export { platesOf, type Plates } from './jobsheet/plates.ts';
export { RESIDUAL, SHEET_KINDS, UNIT_SI as SHEET_UNIT_SI } from './scenario-sheet.ts';
export { rulesFor, scaleOf, testedBy } from './weights.ts';
export {
  attemptFaults,
  attemptJsonSchema,
  isAttempt,
  parseAttempt,
  parseRecord,
  recordFaults,
  recordJsonSchema,
  recordText,
  type Attempt,
} from './record-schema.ts';
export {
  drillId,
  drillOf,
  drillScript,
  PHASES,
  phasesOf,
  type Phase,
  type Phases,
} from './phases.ts';
export { runScript, type Outcome, type PhaseBegun, type Played } from './script.ts';
export { parseScript, scriptFaults, scriptJsonSchema, type Script } from './script-schema.ts';
export { buildSite, circuitCount, siteText } from './field/build.ts';
export type * from './field/site.ts';
export { steadyState, type Steady, type SteadyLink, type SteadyNode } from './steady.ts';
