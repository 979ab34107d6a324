/** What a change does, in a mechanic's words: the numbers that move, two plots, and what they say. */
import { MOST_NAME, printable } from '../foreign-text.ts';
import { circuitWords } from '../../bike/setting-words.ts';
import { ENDS, type End } from '../../bike/sheet.ts';
import type { Often, PredictedMetric, Standing, Sweep } from '../../physics/index.ts';
import type { SheetPhysics } from '../pit-sheet/physics.ts';
import { changeWords } from './metric-words.ts';
import { fit, page, type Style } from '../style.ts';
import { terminalPlot } from '../plots/terminal-plot.ts';
import { paragraph } from '../wrap.ts';

export interface PredictText {
  readonly change: string;
  readonly bike: string;
  readonly metrics: readonly PredictedMetric[];
  readonly drawings: Pick<SheetPhysics, 'curve' | 'row'>;
  readonly notes: readonly string[];
  /** what makes every number doubtful; told before any */
  readonly warnings: readonly string[];
  /** of one knob: how far it is turned, and how many clicks change its damping enough to feel */
  readonly feel: { readonly turned: number; readonly felt: number } | undefined;
  /** also what hardly changes, and what each number means */
  readonly full: boolean;
}

/** The rides of the model are a few only: what they do not show is not nothing, and the damping itself says how far it goes. */
function unfeltLines(feel: PredictText['feel'], style: Style): string[] {
  const put = (text: string): string => paragraph(text, style.width);
  const rides = put(
    "On the model's drops, rows of bumps and braking, the difference is too small to feel. Other ground may show more.",
  );
  if (feel === undefined) return [rides];
  const { turned, felt } = feel;
  const clicks = `${felt} ${felt === 1 ? 'click' : 'clicks'}`;
  return [
    rides,
    put(
      turned >= felt
        ? `The knob's own damping does change enough to feel: ${clicks} that way is enough.`
        : `It takes ${clicks} that way before a rider can feel the knob's own damping change.`,
    ),
  ];
}

const WORDS = { better: 'better', worse: 'worse', either: 'moved', same: 'same' } as const;

export function predictText(p: PredictText, style: Style): string {
  const lines: string[] = [
    style.strong(paragraph(`${p.change} on ${printable(p.bike, MOST_NAME)}`, style.width)),
  ];
  lines.push(...p.warnings.map((w) => style.warn(paragraph(w, style.width, '! ', '  '))));
  const shown = p.metrics.filter((m) => p.full || m.effect !== 'same');
  if (shown.length === 0) lines.push('', ...unfeltLines(p.feel, style));
  let scenario = '';
  for (const m of shown) {
    if (m.scenarioName !== scenario) {
      scenario = m.scenarioName;
      lines.push('', style.strong(scenario));
    }
    const marked =
      m.effect === 'worse'
        ? style.warn('worse ')
        : m.effect === 'better'
          ? style.good('better')
          : WORDS[m.effect].padEnd(6);
    lines.push(paragraph(`${m.name}: ${changeWords(m)}`, style.width, `  ${marked}  `, ' '.repeat(10)));
    if (p.full) lines.push(style.quiet(paragraph(m.about, style.width, '          ')));
  }
  for (const drawing of [p.drawings.curve, p.drawings.row]) {
    if (drawing === undefined) continue;
    lines.push(
      '',
      terminalPlot(drawing, style.width),
      ...drawing.says.map((s) => paragraph(s, style.width, '  ')),
    );
  }
  if (p.notes.length > 0)
    lines.push('', style.strong('Assumed'), ...p.notes.map((n) => paragraph(n, style.width, '  - ')));
  lines.push(
    '',
    paragraph(
      'This is a model, not the bike. It shows which way things move, and roughly how far. Each line holds for most bikes, riders and paces that fit the sheet. What cannot be felt, or could go either way, is left out. A trial on the track decides.',
      style.width,
    ),
  );
  return page(lines, style);
}

/** Metrics over the whole range of one knob, click by click. */
export function sweepText(sweep: Sweep, bike: string, warnings: readonly string[], style: Style): string {
  const { end, circuit, clicks, now, packs, kicks } = sweep;
  const pick = (scenario: string, metric: string) =>
    sweep.metrics.find((m) => m.scenario === scenario && m.metric === metric)?.values ?? [];
  const columns = [
    ['not back', 'mm', pick('row', `travel-not-recovered.${end}`), 1],
    ['depth', 'mm', pick('row', `ride-depth.${end}`), 1],
    ['past sag', 'mm', pick('lone-hit', `overshoot.${end}`), 1],
    ['in the air', '%', pick('row', `time-off-ground.${end}`), 1],
  ] as const;
  const row = (first: string, cells: readonly string[]): string =>
    `${first.padStart(6)}${cells.map((cell) => cell.padStart(11)).join('')}`;
  const lines = [
    style.strong(
      paragraph(`${circuitWords(circuit, end)} over its range on ${printable(bike, MOST_NAME)}`, style.width),
    ),
    ...warnings.map((w) => style.warn(paragraph(w, style.width, '! ', '  '))),
    '',
    row(
      'clicks',
      columns.map(([name]) => name),
    ),
    row(
      '',
      columns.map(([, unit]) => unit),
    ),
  ];
  for (const click of clicks) {
    const marks = [
      click === now ? `now${sweep.assumed ? ' (assumed)' : ''}` : '',
      markOf('packs', packs[click]!),
      markOf('kicks', kicks[click]!),
    ].filter(Boolean);
    const cells = columns.map(([, , values, digits]) => fixed(values[click], digits));
    lines.push(`${row(String(click), cells)}${marks.length === 0 ? '' : `  ${marks.join(', ')}`}`);
  }
  lines.push(
    '',
    ...[
      whereWords('It packs down in a row of bumps', 'It packs down', packs),
      whereWords('It kicks on a single hit', 'It kicks', kicks),
      `Clicks from fully closed, at a usual pace. A ? means only a slow or only a fast rider would get it. Not back: how far below sag the ${end} still is when the next bump comes; a minus means above sag. Depth: how deep in its travel it rides in the row on average. Past sag: how far it springs back past sag after a single hit. In the air: share of the time the tyre is off the ground.`,
    ].map((said) => paragraph(said, style.width)),
  );
  return page(lines, style);
}

function markOf(word: string, often: Often): string {
  return often === 'never' ? '' : often === 'always' ? word : `${word}?`;
}

/** `It packs down in a row of bumps at 0 to 3 clicks from closed, at some paces also at 4 to 6.` */
function whereWords(it: string, short: string, marks: readonly Often[]): string {
  const at = (often: Often): string =>
    runsOf(marks.flatMap((mark, click) => (mark === often ? [click] : [])));
  const [always, sometimes] = [at('always'), at('sometimes')];
  if (always === '' && sometimes === '') return `${short} nowhere in this range.`;
  if (always === '') return `${it} only at some paces, at ${sometimes} clicks from closed.`;
  return `${it} at ${always} clicks from closed${sometimes === '' ? '' : `, at some paces also at ${sometimes}`}.`;
}

/** `0 to 3, 7` out of clicks in order. */
function runsOf(clicks: readonly number[]): string {
  const runs: [number, number][] = [];
  for (const click of clicks) {
    const last = runs.at(-1);
    if (last !== undefined && last[1] === click - 1) last[1] = click;
    else runs.push([click, click]);
  }
  return runs.map(([from, to]) => (from === to ? String(from) : `${from} to ${to}`)).join(', ');
}

function fixed(value: number | undefined, digits: number): string {
  const text = (value ?? Number.NaN).toFixed(digits);
  return Number(text) === 0 ? text.replace('-', '') : text;
}

type Standings = Readonly<Record<End, Standing>>;

/** How the same clicks act on a slope of so many degrees: load, sag and damping of each end against level ground. */
export function slopeText(degrees: number, level: Standings, steep: Standings, style: Style): string {
  const lines = ENDS.map((end) => {
    const [a, b] = [level[end], steep[end]];
    const pct = (x: number): string => `${Math.round(100 * x)} %`;
    const acts =
      b.damping < a.damping - 0.005
        ? ': acts faster there'
        : b.damping > a.damping + 0.005
          ? ': acts slower there'
          : '';
    return paragraph(
      `load ${pct(a.share)} → ${pct(b.share)}, sag ${pct(a.sagShare)} → ${pct(b.sagShare)}, rebound damping ${a.damping.toFixed(2)} → ${b.damping.toFixed(2)} of critical${acts}`,
      style.width,
      `  ${end.padEnd(6)} `,
      ' '.repeat(9),
    );
  });
  const text = `${style.strong(paragraph(`The same clicks on a ${degrees}° slope, at a steady speed`, style.width))}\n${lines.join('\n')}\n\n`;
  return fit(text, style);
}
