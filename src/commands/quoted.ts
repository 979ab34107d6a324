/** A path or a name as a shell takes it, for commands that are printed to be copied. */
export function quoted(text: string): string {
  return /^[\w@%+=:,./~-]+$/.test(text) ? text : `'${text.replaceAll("'", String.raw`'\''`)}'`;
}

/** The further packs of this line, for a command that is printed: a sheet with their settings is read with them alone. */
export function packArgs(packs: readonly string[] = []): string {
  return packs.map((pack) => ` --rules ${quoted(pack)}`).join('');
}
