// Breaks plain data at a path, for tests that must see a fault named where it was planted.
// In a list a step may be an index or an id: `links.circuit.profile.3.at_m`.

type Box = Record<string | number, unknown>;

export function copyOf<T>(json: T): T {
  return JSON.parse(JSON.stringify(json)) as T;
}

/** The path as faults write it, `links[9].profile[3].at_m`, ids turned to indices. */
export function written(json: unknown, path: string): string {
  return steps(json, path)
    .map((step, at) => (typeof step === 'number' ? `[${step}]` : `${at === 0 ? '' : '.'}${step}`))
    .join('');
}

export function valueAt(json: unknown, path: string): unknown {
  return steps(json, path).reduce<unknown>((here, step) => (here as Box)[step], json);
}

/** Puts `value` there; `undefined` takes the key out. */
export function plant(json: unknown, path: string, value: unknown): void {
  const all = steps(json, path);
  const last = all[all.length - 1]!;
  const box = all.slice(0, -1).reduce<unknown>((here, step) => (here as Box)[step], json) as Box;
  if (value === undefined) delete box[last];
  else box[last] = value;
}

function steps(json: unknown, path: string): (string | number)[] {
  let here = json;
  return path.split('.').map((word) => {
    const step = Array.isArray(here) ? indexIn(here, word) : word;
    here = (here as Box | undefined)?.[step];
    return step;
  });
}

function indexIn(list: readonly unknown[], word: string): number {
  if (/^\d+$/.test(word)) return Number(word);
  const at = list.findIndex((entry) => (entry as { id?: unknown } | null)?.id === word);
  if (at < 0) throw new Error(`nothing has the id ${word}`);
  return at;
}
