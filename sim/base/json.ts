// JSON as it comes, before a schema has looked at it.

export type JsonObject = Readonly<Record<string, unknown>>;

export function isObject(json: unknown): json is JsonObject {
  return typeof json === 'object' && json !== null && !Array.isArray(json);
}
