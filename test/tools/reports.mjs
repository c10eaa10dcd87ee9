// Reads what the test runners wrote and adds it up. A runner that failed without a failing test
// counts as one failure, so that a broken run can never look like a clean one.

/** @typedef {{ passed: number, failed: number, skipped: number }} Count */

/**
 * @typedef {{ status: string, name: string, message?: string,
 *   assertionResults: { status: string }[] }} VitestFile
 * @typedef {{ suites?: Suite[], specs?: { title: string, file: string,
 *   tests: { status: string, projectName?: string }[] }[] }} Suite
 */

/**
 * Counts a Vitest JSON report.
 * @param {{ testResults: VitestFile[] } | null} report null when none was written
 * @param {number | null} exitCode of the runner
 * @returns {Count}
 */
export function countVitest(report, exitCode) {
  const count = { passed: 0, failed: 0, skipped: 0 };
  for (const file of report?.testResults ?? []) {
    let failedHere = 0;
    for (const { status } of file.assertionResults) {
      if (status === 'passed') count.passed += 1;
      else if (status === 'failed') failedHere += 1;
      else count.skipped += 1;
    }
    // A file that cannot even be loaded has no tests of its own to fail.
    if (file.status === 'failed' && failedHere === 0) failedHere = 1;
    count.failed += failedHere;
  }
  return withExit(count, exitCode);
}

/**
 * Counts a Playwright JSON report. A flaky test is a failed one.
 * @param {{ suites?: Suite[], errors?: unknown[] } | null} report null when none was written
 * @param {number | null} exitCode of the runner
 * @returns {Count}
 */
export function countPlaywright(report, exitCode) {
  const count = { passed: 0, failed: report?.errors?.length ?? 0, skipped: 0 };
  /** @param {Suite[]} suites */
  const walk = (suites) => {
    for (const suite of suites) {
      for (const { tests } of suite.specs ?? []) {
        for (const { status } of tests) {
          if (status === 'expected') count.passed += 1;
          else if (status === 'skipped') count.skipped += 1;
          else count.failed += 1;
        }
      }
      walk(suite.suites ?? []);
    }
  };
  walk(report?.suites ?? []);
  return withExit(count, exitCode);
}

/** @param {Count} count @param {number | null} exitCode @returns {Count} */
function withExit(count, exitCode) {
  if (count.failed > 0 || (exitCode === 0 && count.passed + count.skipped > 0)) return count;
  return { ...count, failed: 1 };
}

/** @param {readonly Count[]} counts @returns {Count} */
export function total(counts) {
  const sum = { passed: 0, failed: 0, skipped: 0 };
  for (const { passed, failed, skipped } of counts) {
    sum.passed += passed;
    sum.failed += failed;
    sum.skipped += skipped;
  }
  return sum;
}

/** @param {Count} count @returns {string} the last line of a test run */
export function summary({ passed, failed, skipped }) {
  return `${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}`;
}

/** @param {Count} count @returns {boolean} whether the run may be called a success */
export function isGood({ passed, failed }) {
  return failed === 0 && passed > 0;
}
