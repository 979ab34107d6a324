/** A cell of a table for a spreadsheet; RFC 4180. */

/** What a spreadsheet may run, also behind blanks and line ends, and in the wide forms of the signs. */
const FORMULA = /^[\s\p{Cc}]*[=+\-@\uFF1D\uFF0B\uFF0D\uFF20]|^[\t\r]/u;

export function csvCell(value: string | number | null | undefined): string {
  let text = value === null || value === undefined ? '' : String(value);
  // A quote in front keeps it a text.
  if (typeof value === 'string' && FORMULA.test(text)) text = `'${text}`;
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
