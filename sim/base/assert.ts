// Asserts that stay on: a programmer's fault stops the engine with a clear message.

export class AssertionError extends Error {
  constructor(message: string) {
    super(message);
    this.name = 'AssertionError';
  }
}

/** @throws AssertionError when `condition` is false. */
export function assert(condition: boolean, message: string): asserts condition {
  if (!condition) throw new AssertionError(message);
}
