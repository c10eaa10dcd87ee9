// The files that may break a lint rule, each with its reason. The list can only shrink: a test
// in test/walls fails when an entry no longer breaks its rule, or names a file that is gone.

/** @typedef {{ file: string, rule: string, reason: string }} Exception */

const IN_THE_LOOP =
  'Called for every cell, face or column of every tick: an object made for each call would be ' +
  'garbage a hundred thousand times a second.';

/** @type {readonly Exception[]} */
export const EXCEPTIONS = [
  { file: 'sim/laws/gas.ts', rule: 'max-params', reason: IN_THE_LOOP },
  { file: 'sim/network/columns.ts', rule: 'max-params', reason: IN_THE_LOOP },
  { file: 'sim/transport/carry.ts', rule: 'max-params', reason: IN_THE_LOOP },
];
