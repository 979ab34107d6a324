/**
 * The look of a pit sheet: a workshop's paper card. One column on a phone, two on a workspace and on paper.
 * Colours are named once, so that a test can work out every contrast; paper is always light.
 */
import { LINE_HEIGHT, ROWS, WEIGHT_WIDTH } from './heights.ts';
import { NOTE_LINE, PRINT_SIZES, type PrintSize } from './room.ts';
import { plotStyle } from '../plots/svg-plot.ts';

const LIGHT = {
  table: '#e8e3d6',
  card: '#fcfaf4',
  ink: '#1f1d1a',
  quiet: '#5a5449',
  rule: '#8a8272',
  hair: '#d8d1c1',
  for: '#0b5566',
  against: '#8f3d10',
  warn: '#8c1d18',
  tint: '#f1ecdf',
} as const;

const DARK: Readonly<Record<keyof typeof LIGHT, string>> = {
  table: '#12110e',
  card: '#1d1b17',
  ink: '#ece7da',
  quiet: '#b8b09e',
  rule: '#8d8574',
  hair: '#3a362e',
  for: '#74c6d9',
  against: '#eba273',
  warn: '#ff9c92',
  tint: '#28251f',
};

const PAPER: Readonly<Record<keyof typeof LIGHT, string>> = {
  ...LIGHT,
  table: '#ffffff',
  card: '#ffffff',
  ink: '#000000',
  quiet: '#3f3b34',
  tint: '#f4f2ec',
};

function names(colours: Readonly<Record<string, string>>): string {
  return Object.entries(colours)
    .map(([name, colour]) => `--${name}:${colour}`)
    .join(';');
}

/** The class of a page that is printed in letters of this size. */
export function sizeClass(size: PrintSize): string {
  return `print-${String(size).replace('.', '-')}`;
}

export const CSS = `
:root{color-scheme:light dark;${names(LIGHT)}}
@media screen and (prefers-color-scheme:dark){:root{${names(DARK)}}}
*{box-sizing:border-box}
html{-webkit-text-size-adjust:100%;text-size-adjust:100%}
body{margin:0;background:var(--table);color:var(--ink);font:15px/1.4 system-ui,sans-serif;overflow-wrap:break-word}
bdi,.do,li,p,dd{overflow-wrap:anywhere}
.card{max-width:66rem;margin:0 auto;padding:1rem;background:var(--card)}
h1,h2,h3,p,ul,ol,dl,dd,table,figure,blockquote{margin:0;padding:0}
h1{font-size:1.15rem}
h2{font-size:.85rem;letter-spacing:.06em;text-transform:uppercase;border-bottom:1px solid var(--rule);padding-bottom:.15rem;margin:0 0 .4rem}
h3{font-size:.95rem;margin:0 0 .2rem}
section{margin-top:1.1rem;min-width:0}
ul,ol{padding-left:1.2rem}
li{margin-top:.15rem}
.quiet{color:var(--quiet)}
.small{font-size:.85rem}
.number{font-variant-numeric:tabular-nums;white-space:nowrap}
header{border-bottom:3px double var(--rule);padding-bottom:.6rem}
header .kind{font-size:.85rem;letter-spacing:.14em;text-transform:uppercase;color:var(--quiet)}
.pen{display:flex;flex-wrap:wrap;gap:.3rem 1rem;margin-top:.5rem;font-size:.85rem}
.pen span,.start{border-bottom:1px solid var(--rule);color:var(--quiet);padding-top:.9rem}
.pen span{flex:1 1 7rem}
.start{margin:0 0 .5rem;font-size:.85rem}
.said{border-left:3px solid var(--hair);padding-left:.6rem;margin-top:.5rem;color:var(--quiet)}
.first{border:2px solid var(--ink);padding:.7rem .8rem;background:var(--tint)}
.first h2{border:0;margin:0}
.first .do{font-size:1.3rem;line-height:1.2;font-weight:700;margin:.1rem 0 .4rem}
.alarms{border:2px solid var(--warn);padding:.3rem .8rem;color:var(--warn);font-weight:700}
.stop{border-color:var(--warn)}
.stop h2,.stop .do{color:var(--warn)}
dl.facts{display:grid;grid-template-columns:max-content 1fr;gap:.15rem .7rem}
.facts dt{color:var(--quiet)}
.cautions{list-style:none;padding:0}
.cautions li{padding-left:1.2rem;text-indent:-1.2rem}
.level{font-weight:700}
.cautions .care .level,.cautions .stop-level .level{color:var(--warn)}
table{border-collapse:collapse;width:100%;font-size:.9rem}
caption{text-align:left;color:var(--quiet);font-size:.85rem;padding-bottom:.2rem}
th,td{border-bottom:1px solid var(--hair);padding:.2rem .3rem;text-align:left;vertical-align:top;font-variant-numeric:tabular-nums}
thead th{font-size:.85rem;vertical-align:bottom}
thead tr:last-child th,thead th[rowspan]{border-bottom:1px solid var(--rule)}
thead th[colspan]{border-bottom:0}
tbody th{font-weight:400}
td.changed{background:var(--tint);font-weight:700}
td.blank{border:1px solid var(--rule)}
.weights{list-style:none;padding:0;margin-top:.4rem;font-size:.9rem}
.weights li{border-top:1px solid var(--hair);padding:.25rem 0;margin:0}
.weight{display:block}
.bar{max-width:20rem;margin:.15rem 0}
svg{display:block;width:100%;height:auto}
.bar .track{stroke:var(--hair)}
.bar .middle{stroke:var(--ink)}
.bar .for{fill:var(--for)}
.bar .against{fill:none;stroke:var(--against);stroke-width:1.5;stroke-dasharray:2 1.5}
figure{margin-top:.7rem}
figcaption{font-size:.85rem}
.plot{max-width:30rem}
${plotStyle({
  ink: 'var(--ink)',
  quiet: 'var(--quiet)',
  rule: 'var(--rule)',
  hair: 'var(--hair)',
  paper: 'var(--card)',
  before: 'var(--against)',
  after: 'var(--for)',
})}
.runs td.rate,.runs td.time,.runs td.remark{border:1px solid var(--rule)}
.runs .remark{display:none}
.runs td,.runs tbody th{vertical-align:middle}
.runs td.rate{min-width:2.1rem}
.runs td.time{min-width:3.2rem}
.runs th.rate,.runs th.time{text-align:center}
.runs tbody th{font-weight:700;width:2rem}
.settings{font-size:.85rem}
.settings th,.settings td{vertical-align:middle}
.settings td{white-space:nowrap}
.settings td.long,.settings td.blank{white-space:normal}
.runs td{white-space:nowrap}
.runs td .small{display:block;white-space:normal}
.boxes{display:flex;flex-wrap:wrap;gap:.2rem .7rem;margin-top:.5rem}
.box::before{content:"";display:inline-block;width:.8em;height:.8em;border:1px solid var(--ink);margin-right:.35em;vertical-align:-.08em}
.write li{margin-bottom:.3rem}
.line-to-write{display:block;border-bottom:1px solid var(--rule);height:1.85rem}
.notes{display:none}
footer{border-top:1px solid var(--rule);margin-top:1.1rem;padding-top:.4rem;font-size:.85rem;color:var(--quiet)}
@media print,(min-width:30rem){.runs .remark{display:table-cell;width:auto}.runs td .small{display:inline;margin-left:.5rem;white-space:nowrap}.runs td.remark{width:100%}.settings td.blank{width:5.2rem}}
@media (min-width:56rem){
.weights li{display:grid;grid-template-columns:minmax(0,1fr) 12.5rem;gap:.7rem}
.side .weights li{display:block}
body{padding:1.5rem}
.card{padding:1.6rem 1.8rem;border:1px solid var(--rule)}
.columns{display:grid;grid-template-columns:minmax(0,8fr) minmax(0,5fr);gap:0 1.8rem}
}
@page{margin:6mm}
@media print{
:root{color-scheme:light;${names(PAPER)}}
${PRINT_SIZES.map((size) => `html.${sizeClass(size)}{font-size:${size}px}`).join('\n')}
body{background:none;font-size:1rem;line-height:${LINE_HEIGHT};padding:0}
.card{max-width:none;padding:0;border:0}
.columns{display:grid;grid-template-columns:minmax(0,8fr) minmax(0,5fr);gap:0 5mm}
.weights li{display:grid;grid-template-columns:minmax(0,1fr) ${WEIGHT_WIDTH}px;gap:.7rem;padding:.15rem 0}
.side .weights li{display:block}
section{margin-top:.6rem;break-inside:avoid}
.cautions{font-size:.93rem}
header{padding-bottom:.3rem}
h2{margin-bottom:.2rem}
th,td{padding:.1rem .25rem}
td.blank{height:${ROWS.blank}rem}
.runs td{height:${ROWS.run}rem}
.notes{display:block}
.notes .line-to-write{height:${NOTE_LINE}px}
.notes .line-to-write:last-child{border:0}
*{-webkit-print-color-adjust:exact;print-color-adjust:exact}
}
`;
