/** The small pieces that every printed text is made of: sentences, shares, and text that somebody else wrote. */

/** With a full stop, where it does not end as a sentence already. */
export function withStop(text: string): string {
  return /[.?!]$/.test(text) ? text : `${text}.`;
}

export function withoutStop(text: string): string {
  return text.replace(/\.$/, '');
}

export function capital(text: string): string {
  return `${text.slice(0, 1).toUpperCase()}${text.slice(1)}`;
}

/** The other way round, for the middle of a sentence. */
export function decapital(text: string): string {
  return `${text.slice(0, 1).toLowerCase()}${text.slice(1)}`;
}

/** Somebody else's text in a message: one short line without control characters, whatever it was. */
export function printable(text: string, most = 40): string {
  const clean = text.replaceAll(/\p{Cc}/gu, '�');
  return clean.length > most ? `${clean.slice(0, most - 3)}...` : clean;
}

/** A chance: never none or certain, whatever was rounded before. */
export function percent(p: number): string {
  const rounded = Math.round(p * 100);
  if (rounded >= 100) return 'over 99 %';
  return rounded <= 0 ? 'under 1 %' : `${rounded} %`;
}

/** `a fifth`, `a third`: a share as somebody says it who reads a gauge. */
export function fraction(share: number): string {
  const off = ([part]: (typeof FRACTIONS)[number]): number => Math.abs(Math.log(part / share));
  return FRACTIONS.toSorted((a, b) => off(a) - off(b))[0]![1];
}

const FRACTIONS = [
  [1 / 20, 'a twentieth'],
  [1 / 15, 'a fifteenth'],
  [1 / 10, 'a tenth'],
  [1 / 8, 'an eighth'],
  [1 / 6, 'a sixth'],
  [1 / 5, 'a fifth'],
  [1 / 4, 'a quarter'],
  [1 / 3, 'a third'],
  [2 / 5, 'two fifths'],
  [1 / 2, 'half'],
] as const;

/** What was counted. */
export function wholePercent(share: number): string {
  return `${Math.round(100 * share)} %`;
}

/** A strength of the rules, where half a percent matters. */
export function finePercent(p: number): string {
  return `${(100 * p).toFixed(p < 0.1 ? 1 : 0)} %`;
}

/** A result as the JSON that is printed. */
export function json(data: unknown): string {
  return `${JSON.stringify(data, null, 2)}\n`;
}

/** What a spreadsheet may run, also behind blanks and line ends, and in the wide forms of the signs. */
const FORMULA = /^[\s\p{Cc}]*[=+\-@\uFF1D\uFF0B\uFF0D\uFF20]|^[\t\r]/u;

export function csvCell(value: string | number | null | undefined): string {
  let text = value === null || value === undefined ? '' : String(value);
  // A quote in front keeps it a text.
  if (typeof value === 'string' && FORMULA.test(text)) text = `'${text}`;
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
