/** Rows of text in columns of fixed width, for a report of 80 columns. */
import { fit, type Style } from './style.ts';

/** Pads each cell to its column; the last one runs free. Cells too long push the rest to the right. */
export function columns(cells: readonly string[], widths: readonly number[]): string {
  return cells
    .map((cell, i) => (i < widths.length && i < cells.length - 1 ? cell.padEnd(widths[i]!) : cell))
    .join(' ')
    .trimEnd();
}

/** A report of lines, in what the terminal can show. */
export function page(lines: readonly string[], style: Style): string {
  const text = `${lines.join('\n')}\n`;
  return fit(text, style);
}
