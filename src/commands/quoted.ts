/** A path or a name as a shell takes it, for commands that are printed to be copied. */
export function quoted(text: string): string {
  return /^[\w@%+=:,./~-]+$/.test(text) ? text : `'${text.replaceAll("'", String.raw`'\''`)}'`;
}
