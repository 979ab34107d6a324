/** The two drawings of a prediction as one SVG file of its own. */
import type { Drawing } from './pit-sheet-physics.ts';
import { linePlot } from './svg-plot.ts';

const STYLE =
  'text{font:9px sans-serif;fill:#222}.grid path{stroke:#ccc;stroke-width:.5}.tick-y text{text-anchor:end}.tick-x text{text-anchor:middle}' +
  '.before{fill:none;stroke:#777;stroke-width:1.2;stroke-dasharray:4 3}.after{fill:none;stroke:#0b4f8a;stroke-width:1.6}.level{stroke:#999;fill:none;stroke-dasharray:1 2}.mark path{stroke:#222}';

export function plotsSvg(drawings: readonly Drawing[]): string {
  const plots = drawings.map((d, i) =>
    linePlot({ ...d, id: `p${i}`, says: d.says.join(' ') })
      .toString()
      .replace('<svg ', `<svg x="0" y="${i * 170}" width="280" height="160" `),
  );
  const height = drawings.length * 170;
  return `<?xml version="1.0" encoding="UTF-8"?>\n<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 280 ${height}" width="560" height="${2 * height}"><style>${STYLE}</style><rect width="280" height="${height}" fill="#fff"/>${plots.join('')}</svg>\n`;
}
