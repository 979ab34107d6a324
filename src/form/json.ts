/** A result as the JSON that is printed. */
export function json(data: unknown): string {
  return `${JSON.stringify(data, null, 2)}\n`;
}
