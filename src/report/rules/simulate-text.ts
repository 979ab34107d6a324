/** The table of a simulation, eighty columns. */
import { wholePercent } from '../../form/text.ts';
import type { ConfusionRow, Score } from '../../evaluation/score.ts';

interface Row {
  readonly order: string;
  readonly count: number | 'all';
  readonly score: Score;
}

export function simulateReport(
  rows: readonly Row[],
  options: {
    readonly riders: number;
    readonly seed: number;
    readonly manners: object;
    readonly twice?: boolean;
  },
  matrix?: readonly ConfusionRow[],
): string {
  const manners = [
    ...Object.entries(options.manners as Readonly<Record<string, number>>)
      .filter(([, p]) => p > 0)
      .map(([name, p]) => `${name} ${p}`),
    ...(options.twice === true ? ['every question told twice'] : []),
  ].join(', ');
  const lines = [
    `${options.riders} riders, seed ${options.seed}; ${manners === '' ? 'they answer as the model says' : manners}`,
    '',
    'order   off   riders  first  top 3  wrong way  cured  spoilt  asked  90 %  <=12',
  ];
  for (const { order, count, score: s } of rows) {
    lines.push(
      [
        order.padEnd(7),
        String(count).padStart(3),
        String(s.riders).padStart(8),
        share(s.top1, count).padStart(6),
        share(s.top3, count).padStart(6),
        share(s.wrongWay, count).padStart(10),
        share(s.cures, count).padStart(6),
        wholePercent(s.spoils).padStart(7),
        String(s.median).padStart(6),
        String(s.ninetieth).padStart(5),
        wholePercent(s.within12).padStart(5),
      ].join(' '),
    );
  }
  const own = rows.find((r) => r.order === 'gain' && r.count === 'all')?.score;
  if (own !== undefined) {
    const c = own.calibration;
    lines.push(
      '',
      `First cause overstated by ${c.overstated.toFixed(1)} points; Brier ${c.brier.toFixed(3)}, log loss ${c.logLoss.toFixed(3)} nats`,
      '',
      '  stated    said  right  riders',
    );
    for (const bin of c.table) {
      lines.push(
        `  ${bin.from.toFixed(1)}-${bin.to.toFixed(1)} ${wholePercent(bin.stated).padStart(7)} ${wholePercent(bin.right).padStart(6)} ${String(bin.count).padStart(7)}`,
      );
    }
    lines.push('', 'Most often mixed up (one cause off, another named first)');
    for (const m of own.mixUps.slice(0, 8))
      lines.push(`  ${String(m.count).padStart(3)}  ${m.truth} → ${m.said}`);
  }
  if (matrix !== undefined) {
    lines.push('', 'One cause off, or nothing; what was named first');
    for (const { truth, riders, said } of matrix)
      lines.push(
        `  ${truth} (${riders})`,
        ...said.map((s) => `    ${String(s.count).padStart(4)}  ${s.cause === truth ? 'right' : s.cause}`),
      );
  }
  return `${lines.join('\n')}\n`;
}

function share(x: number, count: number | 'all'): string {
  return count === 0 ? '-' : wholePercent(x);
}
