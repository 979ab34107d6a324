/** Whether the terminal can be trusted with more than ASCII; a pipe or file always is. */
export function showsUnicode(env: Readonly<Record<string, string | undefined>>, isTty: boolean): boolean {
  if (!isTty) return true;
  if (env['TERM'] === 'dumb' || env['TERM'] === 'linux') return false;
  const locale = env['LC_ALL'] || env['LC_CTYPE'] || env['LANG'];
  return locale === undefined || /utf-?8/i.test(locale);
}
