/** What a change does, in a mechanic's words: the numbers that move, two plots, and what they say. */
import { MOST_NAME, printable } from './foreign-text.ts';
import { circuitWords } from '../bike/setting-words.ts';
import { ENDS, type End } from '../bike/sheet.ts';
import type { PredictedMetric, Standing, Sweep } from '../dynamics/index.ts';
import type { SheetPhysics } from './pit-sheet-physics.ts';
import { beforeAfter } from './metric-words.ts';
import { toAscii, type Style } from './style.ts';
import { terminalPlot } from './terminal-plot.ts';
import { paragraph } from './wrap.ts';

export interface PredictText {
  readonly change: string;
  readonly bike: string;
  readonly metrics: readonly PredictedMetric[];
  readonly physics: SheetPhysics;
  readonly notes: readonly string[];
  /** also what hardly changes, and what each number means */
  readonly full: boolean;
}

const WORDS = { better: 'better', worse: 'worse', either: 'moved', same: 'same' } as const;

export function predictText(p: PredictText, style: Style): string {
  const lines: string[] = [
    style.strong(paragraph(`${p.change} on ${printable(p.bike, MOST_NAME)}`, style.width)),
  ];
  const shown = p.metrics.filter((m) => p.full || m.effect !== 'same');
  if (shown.length === 0) lines.push('', 'Nothing changes enough to feel.');
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
    lines.push(paragraph(`${m.name}: ${beforeAfter(m)}`, style.width, `  ${marked}  `, ' '.repeat(10)));
    if (p.full) lines.push(style.quiet(paragraph(m.about, style.width, '          ')));
  }
  for (const drawing of [p.physics.curve, p.physics.row]) {
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
      'This is a model, not the bike: it shows which way things move and roughly how far. A trial on track decides.',
      style.width,
    ),
  );
  const text = `${lines.join('\n')}\n`;
  return style.unicode ? text : toAscii(text);
}

/** Metrics over the whole range of one knob, click by click. */
export function sweepText(sweep: Sweep, bike: string, style: Style): string {
  const { end, circuit, clicks, now, packingBegins, kickingBegins } = sweep;
  const pick = (scenario: string, metric: string) =>
    sweep.metrics.find((m) => m.scenario === scenario && m.metric === metric)?.values ?? [];
  const columns = [
    ['not back', 'mm', pick('row', `travel-not-recovered.${end}`), 1],
    ['depth', 'mm', pick('row', `ride-depth.${end}`), 1],
    ['kick', 'm/s', pick('lone-hit', `kick-velocity.${end}`), 2],
    ['overshoot', '%', pick('kerb', `overshoot.${end}`), 0],
    ['in the air', '%', pick('row', `time-off-ground.${end}`), 1],
  ] as const;
  const row = (first: string, cells: readonly string[]): string =>
    `${first.padStart(6)}${cells.map((cell) => cell.padStart(11)).join('')}`;
  const lines = [
    style.strong(
      paragraph(`${circuitWords(circuit, end)} over its range on ${printable(bike, MOST_NAME)}`, style.width),
    ),
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
      click === now ? `now${sweep.assumed ? ' (taken)' : ''}` : '',
      packingBegins !== undefined && click <= packingBegins ? 'packs' : '',
      kickingBegins !== undefined && click >= kickingBegins ? 'kicks' : '',
    ].filter(Boolean);
    const cells = columns.map(([, , values, digits]) => fixed(values[click], digits));
    lines.push(`${row(String(click), cells)}${marks.length === 0 ? '' : `  ${marks.join(', ')}`}`);
  }
  lines.push(
    '',
    ...[
      packingBegins === undefined
        ? 'It packs down nowhere in this range.'
        : `It packs down in a row of bumps from ${clicksWords(packingBegins)} on, closing.`,
      kickingBegins === undefined
        ? 'It kicks nowhere in this range.'
        : `It kicks on a lone hit from ${clicksWords(kickingBegins)} on, opening.`,
      `Clicks from fully closed. Not back: how deep below sag the ${end} still is when the next bump of a row comes; with a minus it is above sag by then. Depth: how far below sag it rides in the row on average. Kick: how fast the frame is still thrown up after a lone hit; with a minus it still sinks. In the air: share of the time its tyre touches nothing.`,
    ].map((said) => paragraph(said, style.width)),
  );
  const text = `${lines.join('\n')}\n`;
  return style.unicode ? text : toAscii(text);
}

function clicksWords(clicks: number): string {
  return `${clicks} ${clicks === 1 ? 'click' : 'clicks'}`;
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
  const text = `${style.strong(paragraph(`The same clicks on a ${degrees}° slope, at held speed`, style.width))}\n${lines.join('\n')}\n\n`;
  return style.unicode ? text : toAscii(text);
}
