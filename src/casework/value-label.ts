/** What was found where something else was expected, as one short printable text. */

export function kindOf(value: unknown): string {
  return value === undefined || value === null
    ? 'nothing'
    : Array.isArray(value)
      ? 'a list'
      : typeof value === 'object'
        ? 'a map'
        : `the ${typeof value} ${show(value)}`;
}

export function show(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (typeof value === 'number' || typeof value === 'boolean') return String(value);
  return typeof value === 'string'
    ? shorten(value)
    : value === null
      ? 'nothing'
      : Array.isArray(value)
        ? 'a list'
        : 'a map';
}

/** One printable line, however long or odd the text. */
export function shorten(text: string): string {
  // oxlint-disable-next-line no-control-regex -- control characters of a case must not reach a terminal
  const clean = text.replace(/[\u0000-\u001f\u007f-\u009f]/g, '?');
  return clean.length > 50 ? `${clean.slice(0, 47)}...` : clean;
}
