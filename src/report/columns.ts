/** Rows of text in columns of fixed width, for a report of 80 columns. */

/** Pads each cell to its column; the last one runs free. Cells too long push the rest to the right. */
export function columns(cells: readonly string[], widths: readonly number[]): string {
  return cells
    .map((cell, i) => (i < widths.length && i < cells.length - 1 ? cell.padEnd(widths[i]!) : cell))
    .join(' ')
    .trimEnd();
}
