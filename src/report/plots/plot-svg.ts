/** The two drawings of a prediction as one SVG file of its own. */
import { markupText } from '../pit-sheet/markup.ts';
import type { Drawing } from '../pit-sheet/physics.ts';
import { HEIGHT, linePlot, plotStyle, WIDTH } from './svg-plot.ts';

/** Room between two drawings, in their own units. */
const GAP = 10;
/** Pixels a unit. */
const SCALE = 2;
const STYLE = plotStyle({
  ink: '#222',
  quiet: '#666',
  rule: '#666',
  hair: '#ccc',
  paper: '#fff',
  before: '#8f3d10',
  after: '#0b5566',
});

export function plotsSvg(drawings: readonly Drawing[]): string {
  const plots = drawings.map((d, i) =>
    markupText(linePlot({ ...d, id: `p${i}`, says: d.says.join(' ') })).replace(
      '<svg ',
      `<svg x="0" y="${i * (HEIGHT + GAP)}" width="${WIDTH}" height="${HEIGHT}" `,
    ),
  );
  const height = drawings.length * (HEIGHT + GAP);
  return `<?xml version="1.0" encoding="UTF-8"?>\n<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${height}" width="${SCALE * WIDTH}" height="${SCALE * height}"><style>${STYLE}</style><rect width="${WIDTH}" height="${height}" fill="#fff"/>${plots.join('')}</svg>\n`;
}
