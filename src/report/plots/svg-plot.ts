/** A small line plot, before and after, that prints in black and white and says in words what it shows. */
import { html, type Markup } from '../pit-sheet/markup.ts';

export interface Line {
  readonly x: readonly number[];
  readonly y: readonly number[];
}

export interface Plot {
  /** unique on the page, for the title that is read aloud */
  readonly id: string;
  readonly title: string;
  /** what a reader who cannot see the lines must know */
  readonly says: string;
  readonly xLabel: string;
  readonly yLabel: string;
  readonly before: Line;
  readonly after: Line;
  /** a level worth a line of its own, such as sag */
  readonly level?: { readonly y: number; readonly label: string };
  /** places on the x axis worth a tick of their own, such as bumps; both lines get a dot there */
  readonly marks?: readonly number[];
  /** larger y lower down, as travel goes */
  readonly upsideDown?: boolean;
}

/** Size of the drawing in its own units; letters are 9.5 of them high. */
export const WIDTH = 280;
export const HEIGHT = 160;
/** Half a number sticks out to the right, or the name of the level. */
const ROOM = { left: 34, right: 14, level: 24, top: 22, bottom: 28 } as const;

/** The style rules that the drawing needs, in these colours. */
export function plotStyle(colour: {
  readonly ink: string;
  readonly quiet: string;
  readonly rule: string;
  readonly hair: string;
  readonly paper: string;
  readonly before: string;
  readonly after: string;
}): string {
  return `
.plot text{font:9.5px system-ui,sans-serif;fill:${colour.ink}}
.plot .grid path{stroke:${colour.hair}}
.plot .frame{stroke:${colour.rule};fill:none}
.plot .mark path{stroke:${colour.ink}}
.plot .tick-y text,.plot .end{text-anchor:end}
.plot .tick-x text{text-anchor:middle}
.plot path.level{stroke:${colour.quiet};stroke-dasharray:1 3}
.plot .line{fill:none;stroke-linejoin:round}
.plot .line.before{stroke:${colour.before};stroke-width:1.4;stroke-dasharray:5 3}
.plot .line.after{stroke:${colour.after};stroke-width:1.9}
.plot .dot.before{fill:${colour.paper};stroke:${colour.before};stroke-width:1.2}
.plot .dot.after{fill:${colour.after};stroke:${colour.after}}`;
}

export function linePlot(plot: Plot): Markup {
  const { id, title, says, before, after, level, marks = [], upsideDown = false } = plot;
  const right = WIDTH - (level === undefined ? ROOM.right : ROOM.level);
  const xs = stretch([...before.x, ...after.x], ROOM.left, right);
  const [bottom, top] = [HEIGHT - ROOM.bottom, ROOM.top];
  const ys = widened([...before.y, ...after.y], upsideDown ? top : bottom, upsideDown ? bottom : top);
  const path = ({ x, y }: Line): string =>
    x.map((value, i) => `${i === 0 ? 'M' : 'L'}${at(xs.to(value))} ${at(ys.to(y[i]!))}`).join('');
  const dots = (line: Line): Markup[] =>
    marks.map((x) => html`<circle cx="${at(xs.to(x))}" cy="${at(ys.to(valueAt(line, x)))}" r="2.6" />`);
  return html`<svg class="plot" viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-labelledby="${id}-t ${id}-d">
    <title id="${id}-t">${title}</title>
    <desc id="${id}-d">${says}</desc>
    <g class="grid">${ys.ticks.map((y) => html`<path d="M${ROOM.left} ${at(ys.to(y))}H${right}" />`)}</g>
    <g class="tick-y">
      ${ys.ticks.map((y) => html`<text x="${ROOM.left - 4}" y="${at(ys.to(y) + 3)}">${number(y)}</text>`)}
    </g>
    <g class="tick-x">
      ${xs.ticks.map((x) => html`<text x="${at(xs.to(x))}" y="${bottom + 11}">${number(x)}</text>`)}
    </g>
    ${marks.length > 0 && html`<g class="mark">${marks.map((x) => html`<path d="M${at(xs.to(x))} ${bottom}v-5" />`)}</g>`}
    <path class="frame" d="M${ROOM.left} ${top}V${bottom}H${right}" />
    ${level !== undefined && html`<path class="level" d="M${ROOM.left} ${at(ys.to(level.y))}H${right}" /><text class="level-name" x="${right + 3}" y="${at(ys.to(level.y) + 3)}">${level.label}</text>`}
    <path class="line before" d="${path(before)}" />
    <path class="line after" d="${path(after)}" />
    ${marks.length > 0 && html`<g class="dot before">${dots(before)}</g><g class="dot after">${dots(after)}</g>`}
    <text class="axis-name end" x="${right}" y="${HEIGHT - 5}">${plot.xLabel}</text>
    <text class="axis-name" x="2" y="10">${plot.yLabel}</text>
    <g class="key">
      <path class="line before" d="M${WIDTH - 152} 7h24" />
      <text x="${WIDTH - 124}" y="10">before</text>
      <path class="line after" d="M${WIDTH - 76} 7h24" />
      <text x="${WIDTH - 48}" y="10">after</text>
    </g>
  </svg>`;
}

interface Scale {
  readonly to: (value: number) => number;
  readonly ticks: readonly number[];
}

/** From the values' range to a stretch of the drawing, the ticks inside it. */
function stretch(values: readonly number[], from: number, until: number): Scale {
  const [low, high] = range(values);
  const step = tickStep(high - low);
  const first = Math.ceil(low / step - 1e-9);
  const last = Math.floor(high / step + 1e-9);
  return {
    to: (value) => from + ((value - low) / (high - low)) * (until - from),
    ticks: Array.from({ length: last - first + 1 }, (_, i) => (first + i) * step),
  };
}

/** The same with zero included and the range widened to whole ticks. */
function widened(values: readonly number[], from: number, until: number): Scale {
  const [least, most] = range([0, ...values]);
  const step = tickStep(most - least);
  return stretch([Math.floor(least / step + 1e-9) * step, Math.ceil(most / step - 1e-9) * step], from, until);
}

/** Least and most, never the same. */
function range(values: readonly number[]): readonly [number, number] {
  let least = Infinity;
  let most = -Infinity;
  for (const v of values) {
    if (v < least) least = v;
    if (v > most) most = v;
  }
  return [least, most > least ? most : least + 1];
}

/** 1, 2 or 5 times a power of ten, four to nine of them over the span. */
export function tickStep(span: number): number {
  const power = 10 ** Math.floor(Math.log10(span / 4));
  const share = span / 4 / power;
  return power * (share >= 5 ? 5 : share >= 2 ? 2 : 1);
}

/** The line's value at the sample nearest to a place. */
function valueAt({ x, y }: Line, place: number): number {
  let best = 0;
  for (let i = 1; i < x.length; i++) if (Math.abs(x[i]! - place) < Math.abs(x[best]! - place)) best = i;
  return y[best]!;
}

function at(x: number): string {
  return String(Math.round(x * 10) / 10);
}

function number(x: number): string {
  return String(Number(x.toPrecision(6))).replace('-', '−');
}
