// The files that may break a lint rule, each with its reason. The list can only shrink: a test
// in test/walls fails when an entry no longer breaks its rule, or names a file that is gone.

/** @typedef {{ file: string, rule: string, reason: string }} Exception */

/** @type {readonly Exception[]} */
export const EXCEPTIONS = [];
