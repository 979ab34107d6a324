/** What a change does, in a mechanic's words: the numbers that move, two plots, and what they say. */
import { MOST_NAME, printable } from './foreign-text.ts';
import { ENDS, type End } from '../bike/sheet.ts';
import type { PredictedMetric, Standing, Sweep } from '../dynamics/index.ts';
import type { SheetPhysics } from './pit-sheet-physics.ts';
import { toAscii, type Style } from './style.ts';
import { terminalPlot } from './terminal-plot.ts';
import { paragraph } from './wrap.ts';

export interface PredictText {
  readonly change: string;
  readonly bike: string;
  readonly metrics: readonly PredictedMetric[];
  readonly physics: SheetPhysics;
  readonly notes: readonly string[];
  /** also what hardly moves, and what each number means */
  readonly full: boolean;
}

const WORDS = { better: 'better', worse: 'worse', either: 'moved', same: 'same' } as const;

export function predictText(p: PredictText, style: Style): string {
  const lines: string[] = [style.strong(`${p.change} on ${printable(p.bike, MOST_NAME)}`)];
  const shown = p.metrics.filter((m) => p.full || m.effect !== 'same');
  if (shown.length === 0) lines.push('', 'Nothing moves by more than a rider could feel.');
  let scenario = '';
  for (const m of shown) {
    if (m.scenarioName !== scenario) {
      scenario = m.scenarioName;
      lines.push('', style.strong(scenario));
    }
    const numbers = `${fixed(m.before, m)} → ${fixed(m.after, m)} ${m.unit}`;
    const marked =
      m.effect === 'worse'
        ? style.warn('worse ')
        : m.effect === 'better'
          ? style.good('better')
          : WORDS[m.effect].padEnd(6);
    lines.push(paragraph(`${m.name}: ${numbers}`, style.width, `  ${marked}  `, ' '.repeat(10)));
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
      'A model of this bike, not this bike: it tells which way things move and roughly how far. A trial on track decides.',
      style.width,
    ),
  );
  const text = `${lines.join('\n')}\n`;
  return style.unicode ? text : toAscii(text);
}

/** As many digits as show the difference. */
function fixed(value: number, m: PredictedMetric): string {
  const gap = Math.abs(m.after - m.before);
  const digits = gap === 0 ? 2 : Math.min(3, Math.max(0, 1 - Math.floor(Math.log10(gap))));
  return value.toFixed(digits);
}

/** Metrics over the whole range of one knob, click by click. */
export function sweepText(sweep: Sweep, bike: string, style: Style): string {
  const { end, circuit, clicks, now, packingBegins, kickingBegins } = sweep;
  const pick = (scenario: string, metric: string) =>
    sweep.metrics.find((m) => m.scenario === scenario && m.metric === metric)?.values ?? [];
  const columns = [
    ['not back, mm', pick('row', `travel-not-recovered.${end}`), 1],
    ['height, mm', pick('row', `ride-height.${end}`), 1],
    ['kick, m/s', pick('lone-hit', `kick-velocity.${end}`), 2],
    ['overshoot, %', pick('kerb', `overshoot.${end}`), 0],
    ['off ground, %', pick('row', `time-off-ground.${end}`), 1],
  ] as const;
  const lines = [
    style.strong(`${end}.${circuit} over its range on ${bike}`),
    '',
    `clicks ${columns.map(([name]) => name.padStart(13)).join('')}`,
  ];
  for (const click of clicks) {
    const marks = [
      click === now ? `now${sweep.assumed ? ' (taken)' : ''}` : '',
      click === packingBegins ? 'packs from here closed' : '',
      click === kickingBegins ? 'kicks from here open' : '',
    ].filter(Boolean);
    lines.push(
      `${String(click).padStart(6)} ${columns.map(([, values, digits]) => (values[click] ?? Number.NaN).toFixed(digits).padStart(13)).join('')}${marks.length === 0 ? '' : `  < ${marks.join('; ')}`}`,
    );
  }
  lines.push(
    '',
    paragraph(
      'Clicks from fully closed. Not back: how deep below sag the end still is when the next bump of a row comes. Height: mean ride height against sag in the row.',
      style.width,
    ),
  );
  if (packingBegins === undefined) lines.push('It packs nowhere in this range.');
  if (kickingBegins === undefined) lines.push('It kicks nowhere in this range.');
  const text = `${lines.join('\n')}\n`;
  return style.unicode ? text : toAscii(text);
}

type Standings = Readonly<Record<End, Standing>>;

/** How the same clicks act on a slope of so many degrees: load, sag and damping of each end against level ground. */
export function slopeText(degrees: number, level: Standings, steep: Standings, style: Style): string {
  const lines = ENDS.map((end) => {
    const [a, b] = [level[end], steep[end]];
    const pct = (x: number): string => `${Math.round(100 * x)} %`;
    return `  ${end.padEnd(6)} load ${pct(a.share)} → ${pct(b.share)}, sag ${pct(a.sagShare)} → ${pct(b.sagShare)}, rebound damping ${a.damping.toFixed(2)} → ${b.damping.toFixed(2)} of critical${b.damping < a.damping - 0.005 ? ': acts faster there' : b.damping > a.damping + 0.005 ? ': acts slower there' : ''}`;
  });
  const text = `${style.strong(`The same clicks on a ${degrees}° slope, at held speed`)}\n${lines.join('\n')}\n\n`;
  return style.unicode ? text : toAscii(text);
}
