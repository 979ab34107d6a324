/** How a report marks what matters; the console fills in colour, and plain text stays readable without it. */

export interface Style {
  readonly strong: (text: string) => string;
  readonly quiet: (text: string) => string;
  readonly good: (text: string) => string;
  readonly warn: (text: string) => string;
  /** columns */
  readonly width: number;
  /** whether the terminal can show more than ASCII */
  readonly unicode: boolean;
}

const same = (text: string): string => text;
export const PLAIN: Style = { strong: same, quiet: same, good: same, warn: same, width: 80, unicode: true };

/** The text as the terminal can show it. */
export function fit(text: string, { unicode }: Pick<Style, 'unicode'>): string {
  return unicode ? text : toAscii(text);
}

/** A report of lines, in what the terminal can show. */
export function page(lines: readonly string[], style: Style): string {
  return fit(`${lines.join('\n')}\n`, style);
}

/** For terminals without Unicode: the few signs that reports use, in ASCII. */
export function toAscii(text: string): string {
  return text
    .replaceAll('→', '->')
    .replaceAll('−', '-')
    .replaceAll('–', '-')
    .replaceAll('…', '...')
    .replaceAll('’', "'")
    .replaceAll('·', '-')
    .replaceAll('█', '#')
    .replaceAll('░', '.')
    .replaceAll('≥', '>=')
    .replaceAll('≤', '<=')
    .replaceAll('›', '>')
    .replaceAll('×', 'x')
    .replaceAll('±', '+-')
    .replaceAll('²', '2')
    .replaceAll('\uFFFD', '?')
    .replace(/[“”]/g, '"')
    .replace(/ ?°C/g, ' C')
    .replace(/ ?°/g, ' degrees');
}
