// A fault in what somebody wrote: where it is and what is wrong, in plain words. Everything
// that reads a file lists all its faults at once; nothing is guessed or put right in silence.

export interface Fault {
  /** Where, as `links[3].bore_mm`. */
  readonly path: string;
  readonly message: string;
}

/** Bad input: carries every fault at once. */
export class InputFaults extends Error {
  readonly faults: readonly Fault[];
  constructor(faults: readonly Fault[]) {
    super(faults.map((f) => `${f.path}: ${f.message}`).join('\n'));
    this.name = 'InputFaults';
    this.faults = faults;
  }
}

export function pathText(path: readonly PropertyKey[]): string {
  const text = path.reduce<string>((sofar, key) => {
    if (typeof key === 'number') return `${sofar}[${key}]`;
    return sofar === '' ? String(key) : `${sofar}.${String(key)}`;
  }, '');
  return text === '' ? '(whole)' : text;
}

/** What the schema library tells of one fault, as far as it is used here. */
export interface SchemaIssue {
  readonly code?: string | undefined;
  readonly path: readonly PropertyKey[];
  readonly message: string;
  readonly keys?: readonly string[];
  readonly expected?: string;
  readonly minimum?: number | bigint;
  readonly maximum?: number | bigint;
  readonly origin?: string;
  readonly values?: readonly unknown[];
  readonly options?: readonly unknown[];
  readonly format?: string;
  readonly inclusive?: boolean;
  /** One list of issues for each alternative of a union. */
  readonly errors?: ReadonlyArray<readonly SchemaIssue[]>;
}

/**
 * The schema library's issues as faults, one path each.
 * @param under where in the file `json` stands, as a path
 */
export function schemaFaults(
  issues: readonly SchemaIssue[],
  json: unknown,
  under: readonly PropertyKey[] = [],
): Fault[] {
  return issues.flatMap((issue) => issueFaults(issue, json, under));
}

function issueFaults(issue: SchemaIssue, json: unknown, under: readonly PropertyKey[]): Fault[] {
  const path = [...under, ...issue.path];
  if (issue.code === 'unrecognized_keys') {
    return (issue.keys ?? []).map((key) => {
      return { path: pathText([...path, key]), message: 'this key is not known here' };
    });
  }
  const found = valueAt(json, issue.path);
  const nearest = nearestAlternative(issue);
  if (nearest !== null) return schemaFaults(nearest, found, path);
  return [{ path: pathText(path), message: plainMessage(issue, found) }];
}

/** Of a union's alternatives the one with its fault deepest inside: what the writer meant. */
function nearestAlternative(issue: SchemaIssue): readonly SchemaIssue[] | null {
  if (issue.code !== 'invalid_union') return null;
  let nearest: readonly SchemaIssue[] | null = null;
  let least = Infinity;
  for (const list of issue.errors ?? []) {
    const shallow = list.filter((i) => i.path.length === 0).length;
    const cost = 100 * shallow + list.length;
    if (cost < least && shallow === 0) {
      least = cost;
      nearest = list;
    }
  }
  return nearest;
}

function plainMessage(issue: SchemaIssue, found: unknown): string {
  if (found === undefined) return 'is missing';
  switch (issue.code) {
    case 'invalid_type':
      return `must be ${withArticle(issue.expected)}, not ${nameOf(found)}`;
    case 'too_small':
      return sizeMessage('at least', issue.minimum, issue.origin);
    case 'too_big':
      return sizeMessage('at most', issue.maximum, issue.origin);
    case 'invalid_value':
      return `must be ${choices(issue.values ?? [])}, not ${shown(found)}`;
    case 'invalid_union':
      return issue.options === undefined
        ? `has no known shape: ${shown(found)}`
        : `must be ${choices(issue.options)}`;
    default:
      return issue.message.replace(/^Invalid string: must match pattern .*$/, 'has the wrong form');
  }
}

function sizeMessage(word: string, limit: number | bigint | undefined, origin?: string): string {
  if (origin === 'array') return `must have ${word} ${String(limit)} entries`;
  if (origin === 'string') return `must have ${word} ${String(limit)} characters`;
  return `must be ${word} ${String(limit)}`;
}

function choices(values: readonly unknown[]): string {
  const texts = values.map(shown);
  if (texts.length < 2) return texts.join('');
  return `${texts.slice(0, -1).join(', ')} or ${texts[texts.length - 1]}`;
}

function withArticle(expected: string | undefined): string {
  if (expected === 'int') return 'a whole number';
  if (expected === 'boolean') return 'true or false';
  if (expected === 'object' || expected === 'record') return 'an object { }';
  if (expected === 'array') return 'a list [ ]';
  if (expected === 'string') return 'a text';
  return `a ${expected ?? 'value'}`;
}

function nameOf(found: unknown): string {
  if (found === null) return 'null';
  if (Array.isArray(found)) return 'a list';
  if (typeof found === 'object') return 'an object';
  return shown(found);
}

function shown(value: unknown): string {
  const text = typeof value === 'object' && value !== null ? nameOf(value) : JSON.stringify(value);
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

function valueAt(json: unknown, path: readonly PropertyKey[]): unknown {
  let here: unknown = json;
  for (const key of path) {
    if (typeof here !== 'object' || here === null) return undefined;
    here = Object.hasOwn(here, key) ? (here as Record<PropertyKey, unknown>)[key] : undefined;
  }
  return here;
}
