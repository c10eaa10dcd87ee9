// The counting behind the last line of `npm test`: a broken run must never look like a clean one.

import { describe, expect, it } from 'vitest';
import {
  countPlaywright,
  countVitest,
  isGood,
  summary,
  total,
} from '../../tools/reports.mjs';

const file = (status: string, ...tests: string[]) => ({
  name: 'a.test.ts',
  status,
  assertionResults: tests.map((one) => ({ status: one })),
});

describe('counting unit tests', () => {
  it('adds up passed, failed and skipped', () => {
    const report = {
      testResults: [file('passed', 'passed', 'pending'), file('failed', 'failed', 'passed')],
    };
    expect(countVitest(report, 1)).toEqual({ passed: 2, failed: 1, skipped: 1 });
  });

  it('counts a file that cannot be loaded as a failure', () => {
    const report = { testResults: [file('failed'), file('passed', 'passed')] };
    expect(countVitest(report, 1)).toEqual({ passed: 1, failed: 1, skipped: 0 });
  });

  it('counts an exit code without a failed test, no report and no tests as a failure', () => {
    expect(countVitest({ testResults: [file('passed', 'passed')] }, 1).failed).toBe(1);
    expect(countVitest({ testResults: [file('passed', 'passed')] }, null).failed).toBe(1);
    expect(countVitest(null, 0).failed).toBe(1);
    expect(countVitest({ testResults: [] }, 0).failed).toBe(1);
  });
});

describe('counting browser tests', () => {
  const spec = (...states: string[]) => ({
    title: 'a',
    file: 'a.spec.ts',
    tests: states.map((status) => ({ status })),
  });

  it('walks nested suites and calls a flaky test failed', () => {
    const report = {
      suites: [{ specs: [spec('expected', 'flaky')], suites: [{ specs: [spec('skipped')] }] }],
    };
    expect(countPlaywright(report, 1)).toEqual({ passed: 1, failed: 1, skipped: 1 });
  });

  it('counts errors outside tests and a run of nothing as failures', () => {
    const good = { suites: [{ specs: [spec('expected')] }], errors: [{}] };
    expect(countPlaywright(good, 1)).toEqual({ passed: 1, failed: 1, skipped: 0 });
    expect(countPlaywright({ suites: [], errors: [] }, 0).failed).toBe(1);
    expect(countPlaywright(null, null).failed).toBe(1);
  });
});

describe('the last line', () => {
  it('says how many, and names skipped ones only when there are any', () => {
    const sum = total([
      { passed: 2, failed: 0, skipped: 0 },
      { passed: 1, failed: 1, skipped: 3 },
    ]);
    expect(summary(sum)).toBe('3 passed, 1 failed, 3 skipped');
    expect(summary({ passed: 3, failed: 0, skipped: 0 })).toBe('3 passed, 0 failed');
  });

  it('calls a run good only when something passed and nothing failed', () => {
    expect(isGood({ passed: 1, failed: 0, skipped: 9 })).toBe(true);
    expect(isGood({ passed: 0, failed: 0, skipped: 9 })).toBe(false);
    expect(isGood({ passed: 9, failed: 1, skipped: 0 })).toBe(false);
  });
});
