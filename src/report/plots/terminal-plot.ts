/** A line plot in characters: two lines, before and after, told apart by their signs and not by colour. */

export interface TerminalPlot {
  readonly title: string;
  readonly xLabel: string;
  readonly yLabel: string;
  readonly before: { readonly x: readonly number[]; readonly y: readonly number[] };
  readonly after: { readonly x: readonly number[]; readonly y: readonly number[] };
  /** larger y lower down, as travel goes */
  readonly upsideDown?: boolean;
}

const ROWS = 12;
const BEFORE = '.';
const AFTER = '#';

/** @param width columns of the whole plot, its axis included */
export function terminalPlot(plot: TerminalPlot, width: number): string {
  const axis = 8;
  const columns = Math.max(20, width - axis - 2);
  const xs = [...plot.before.x, ...plot.after.x];
  const ys = [...plot.before.y, ...plot.after.y];
  const [x0, x1] = [Math.min(...xs), Math.max(...xs)];
  const [y0, y1] = [Math.min(0, ...ys), Math.max(...ys)];
  const grid = Array.from({ length: ROWS }, () => Array.from({ length: columns }, () => ' '));
  const draw = ({ x, y }: TerminalPlot['before'], sign: string): void => {
    for (let column = 0; column < columns; column++) {
      const at = x0 + ((x1 - x0) * column) / (columns - 1);
      const share = (interpolate(x, y, at) - y0) / Math.max(1e-12, y1 - y0);
      const row = Math.round((plot.upsideDown === true ? share : 1 - share) * (ROWS - 1));
      grid[row]![column] = sign;
    }
  };
  draw(plot.before, BEFORE);
  draw(plot.after, AFTER);
  const label = (row: number): string => {
    if (row !== 0 && row !== ROWS - 1) return ' '.repeat(axis);
    const top = plot.upsideDown === true ? y0 : y1;
    const bottom = plot.upsideDown === true ? y1 : y0;
    return short(row === 0 ? top : bottom).padStart(axis);
  };
  const lines = grid.map((cells, row) => `${label(row)} |${cells.join('').trimEnd()}`);
  const ends = `${short(x0)}${short(x1).padStart(columns - short(x0).length)}`;
  return [
    `${plot.title}   ${BEFORE} before   ${AFTER} after   (${plot.yLabel})`,
    ...lines,
    `${' '.repeat(axis)} +${'-'.repeat(columns)}`,
    `${' '.repeat(axis + 2)}${ends}`,
    `${' '.repeat(axis + 2)}${plot.xLabel}`,
  ].join('\n');
}

/** Straight between the points; x rises. */
function interpolate(x: readonly number[], y: readonly number[], at: number): number {
  let low = 0;
  let high = x.length - 1;
  if (at <= x[0]!) return y[0]!;
  if (at >= x[high]!) return y[high]!;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (x[middle]! <= at) low = middle;
    else high = middle;
  }
  const share = (at - x[low]!) / (x[high]! - x[low]!);
  return y[low]! + share * (y[high]! - y[low]!);
}

function short(value: number): string {
  return Number(value.toPrecision(3)).toString();
}
