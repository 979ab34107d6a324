/** Whether parsed data is a map of keys, as YAML and JSON give it. */
export function isMap(data: unknown): data is Record<string, unknown> {
  return typeof data === 'object' && data !== null && !Array.isArray(data);
}
