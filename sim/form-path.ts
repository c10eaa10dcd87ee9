// Places in a scenario by path: what stands there, and the same scenario with something else there.
// What is given is left as it is; only what lies on the way to a change is made anew.
import { isObject } from './base/json.ts';

export const keysOf = (path: string): readonly string[] => path.split('.');

/** Every value that the keys lead to; a last key that an object does not have gives undefined. */
export function valuesAt(json: unknown, keys: readonly string[]): unknown[] {
  const found: unknown[] = [];
  changedAt(json, keys, (value) => {
    found.push(value);
    return value;
  });
  return found;
}

/**
 * The same with each value there changed; one that becomes undefined is taken out. `change` is told
 * where it stands, members of lists by their number.
 */
export function changedAt(
  json: unknown,
  keys: readonly string[],
  change: (value: unknown, place: string) => unknown,
  above = '',
): unknown {
  const [key, ...rest] = keys;
  if (key === undefined) return change(json, above);
  if (Array.isArray(json)) {
    return json.map((member: unknown, at) =>
      isNamed(member, at, key) ? changedAt(member, rest, change, `${above}.${at}`) : member,
    );
  }
  if (!isObject(json) || (rest.length > 0 && !Object.hasOwn(json, key))) return json;
  const { [key]: before, ...others } = json;
  const after = changedAt(before, rest, change, `${above}.${key}`);
  if (after === before) return json;
  return after === undefined ? others : { ...json, [key]: after };
}

function isNamed(member: unknown, at: number, key: string): boolean {
  if (key === '*' || key === String(at)) return true;
  const [from, to] = key.split('-').map(Number);
  if (from !== undefined && to !== undefined) return at >= from && at <= to;
  if (!isObject(member) || typeof member.id !== 'string') return false;
  return key.endsWith('*') ? member.id.startsWith(key.slice(0, -1)) : member.id === key;
}
