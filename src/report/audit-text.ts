/** The rules that carry physics, against the model: agree, disagree, or too small to say. */
import type { AuditRow } from '../casework/audit-rules.ts';
import type { Finding } from '../dynamics/index.ts';
import { toAscii, type Style } from './style.ts';
import { paragraph } from './wrap.ts';

export function auditText(
  rows: readonly AuditRow[],
  unreached: readonly string[],
  without: readonly string[],
  bikes: readonly string[],
  full: boolean,
  style: Style,
): string {
  const count = (v: AuditRow['verdict']): number => rows.filter((r) => r.verdict === v).length;
  const lines = [
    `${new Set(rows.map((r) => r.question)).size} rules with physics, ${rows.length} causes of theirs in the model, on ${bikes.join(', ')} bikes:`,
    `${count('agree')} agree, ${count('disagree')} disagree (${rows.filter((r) => r.verdict === 'disagree' && r.reason === undefined).length} without a written reason), ${count('too-small')} too small to say.`,
  ];
  for (const verdict of ['disagree', 'too-small', 'agree'] as const) {
    const own = rows.filter((r) => r.verdict === verdict);
    if (own.length === 0) continue;
    lines.push('', style.strong(verdict.replace('-', ' ')));
    for (const r of own) {
      lines.push(
        paragraph(`${r.question} › ${r.cause}: ${r.scenario}, ${r.metric} ${r.sign}`, style.width, '  '),
      );
      if (verdict === 'disagree')
        lines.push(
          paragraph(
            r.reason === undefined ? style.warn('no reason is written down') : `because: ${r.reason}`,
            style.width,
            '      ',
          ),
        );
      if (full || (verdict === 'disagree' && r.reason === undefined))
        lines.push(...r.findings.map((f, i) => `      ${bikes[i]}: ${runsOf(f)}`));
    }
  }
  if (full) {
    lines.push(
      '',
      style.strong('beyond the model'),
      ...unreached.map((u) => paragraph(u, style.width, '  ')),
    );
    lines.push('', style.strong('no physics given'), paragraph(without.join(', '), style.width, '  '));
  } else
    lines.push(
      '',
      `${unreached.length} causes are beyond the model, ${without.length} rules carry no physics; --full lists them.`,
    );
  const text = `${lines.join('\n')}\n`;
  return style.unicode ? text : toAscii(text);
}

function runsOf(f: Finding): string {
  if (f.verdict === 'unreachable') return f.why;
  const runs = f.runs.map((r) => `${r.out.toPrecision(3)} → ${r.in.toPrecision(3)}`).join(', ');
  return `${f.verdict}: ${runs} ${f.unit} (floor ${f.floor})`;
}
