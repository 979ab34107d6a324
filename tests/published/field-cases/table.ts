/** The table of `npm run field-cases`: reports and told lines, by half, family and writer. */
import { readFileSync } from 'node:fs';
import type { CompiledRules } from '../../../src/rulebase/compiled.ts';
import { replay } from './replay.ts';
import { programOf } from './program.ts';
import {
  familyOf,
  namesOfCauses,
  reports,
  score,
  shares,
  written,
  type Report,
  type Score,
} from './score.ts';
import { GUIDES, isOdd, readInvented, UNUSED } from '../../bench/reports/invented.ts';
import { readTold } from './told.ts';

export const WRITERS = ['a', 'b', 'c', 'd', 'e', 'f'] as const;

/** Every report read by the program, from one writer's answers. */
export function readReports(
  rules: CompiledRules,
  writer: string,
  as: 'causes' | 'shown' = 'causes',
): { report: Report; score: Score }[] {
  const program = programOf(rules, as);
  const names = namesOfCauses();
  const byId = new Map(written(writer).map((w) => [w.id, w]));
  return reports().map((report) => ({
    report,
    score: score(
      report,
      program(byId.get(report.id)!).map((c) => names.get(c.id) ?? []),
    ),
  }));
}

export function table(): string {
  const part = (file: string): object => JSON.parse(readFileSync(`dist/rules/${file}`, 'utf8')) as object;
  const rules = { ...part('base.json'), ...part('base.rare.json') } as CompiledRules;
  const out: string[] = [];
  const line = (name: string, scores: readonly Score[]): void => {
    const { n, ...rest } = shares(scores);
    const cells = Object.values(rest).map((v) => `${v.toFixed(0)} %`.padStart(9));
    out.push(`${name.padEnd(16)}${String(n).padStart(4)}${cells.join('')}`);
  };
  for (const writer of WRITERS) {
    const all = readReports(rules, writer);
    const core = all.filter(({ report }) => report.tier === 'core').map((x) => x.score);
    out.push('', `writer ${writer}           n    first    three    wrong tolerated`);
    line('core', core);
    line(
      '  as shown',
      readReports(rules, writer, 'shown')
        .filter(({ report }) => report.tier === 'core')
        .map((x) => x.score),
    );
    line(
      '  open half',
      core.filter((s) => s.half === 'open'),
    );
    line(
      '  scored half',
      core.filter((s) => s.half === 'scored'),
    );
    for (const family of new Set(all.map(({ report }) => familyOf(report.answer.acceptable[0]!.cause))))
      line(
        `  ${family}`,
        core.filter((s) => s.family === family),
      );
    line(
      'extra',
      all.filter(({ report }) => report.tier === 'extra').map((x) => x.score),
    );
  }
  out.push('', 'invented reports    n    first    three    wrong tolerated');
  line('  once used', readInvented(rules));
  line('  never used', readInvented(rules, UNUSED));
  const guides = readInvented(rules, GUIDES);
  line(
    '  help, seen',
    guides.filter(({ id }) => !isOdd(id)),
  );
  line(
    '  help, unseen',
    guides.filter(({ id }) => isOdd(id)),
  );
  const lines = readTold(rules, reports(), WRITERS.map(written));
  out.push('', 'told lines           n    right    wrong     none');
  for (const half of ['open', 'scored'] as const) {
    const own = lines.filter((l) => l.half === half);
    const share = (of: (l: (typeof own)[number]) => boolean): string =>
      `${((100 * own.filter(of).length) / own.length).toFixed(0)} %`.padStart(9);
    out.push(
      `${half.padEnd(16)}${String(own.length).padStart(6)}${share((l) => l.right)}${share((l) => l.wrong.length > 0)}${share((l) => l.offers === 0)}`,
    );
  }
  out.push(
    '',
    'interviews of riders who know only the report: questions asked, and core cases right after them',
  );
  for (const writer of WRITERS) {
    const { asked, first, three, n } = replay(writer);
    const at = (share: number): number => asked[Math.floor(n * share)]!;
    out.push(
      `writer ${writer}: median ${at(0.5)}, 90th percentile ${at(0.9)}; first ${((100 * first) / n).toFixed(0)} %, three ${((100 * three) / n).toFixed(0)} %`,
    );
  }
  return out.join('\n').trim();
}
