/** The rules that carry physics, against the model: agree, disagree, weak, or too small to say. */
import { wholePercent } from '../../form/text.ts';
import { unargued, type AuditRow } from '../../casework/audit-rules.ts';
import type { Verdict } from '../../physics/index.ts';
import { page, type Style } from '../style.ts';
import { paragraph } from '../wrap.ts';

const ORDER: readonly Verdict[] = ['disagree', 'weak', 'too-small', 'agree'];

export function auditText(
  rows: readonly AuditRow[],
  unreached: readonly string[],
  without: readonly string[],
  bikes: number,
  full: boolean,
  style: Style,
): string {
  const count = (v: Verdict): number => rows.filter((r) => r.verdict === v).length;
  const silent = rows.filter(unargued).length;
  const lines = [
    paragraph(
      `${new Set(rows.map((r) => r.question)).size} rules with physics, ${rows.length} causes of theirs in the model, on ${bikes} plausible bikes and riders. Each number: the share of the bikes that go the way the rule says; agreed is 90 % and more.`,
      style.width,
    ),
    paragraph(
      `${count('agree')} agree, ${count('disagree')} disagree, ${count('weak')} are weak, ${count('too-small')} too small to say; ${silent} of those without a written reason.`,
      style.width,
    ),
  ];
  for (const verdict of ORDER) {
    const own = rows.filter((r) => r.verdict === verdict);
    if (own.length === 0) continue;
    lines.push('', style.strong(verdict.replace('-', ' ')));
    for (const r of own) {
      lines.push(
        paragraph(
          `${r.question} › ${r.cause}: ${r.scenario}, ${r.metric} ${r.sign}`,
          style.width,
          `${wholePercent(r.finding.share).padStart(6)}  `,
          ' '.repeat(10),
        ),
      );
      if (verdict !== 'agree')
        lines.push(
          paragraph(
            r.reason === undefined ? style.warn('no reason is written down') : `because: ${r.reason}`,
            style.width,
            ' '.repeat(12),
          ),
        );
      if (full || unargued(r)) lines.push(`${' '.repeat(12)}${medianOf(r)}`);
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
  return page(lines, style);
}

function medianOf({ finding: { out, change, unit, floor, bikes } }: AuditRow): string {
  const by = `${change < 0 ? '−' : '+'}${Math.abs(change).toPrecision(2)}`;
  return `median of ${bikes}: ${out.toPrecision(3)} ${by} ${unit} (least told ${floor})`;
}
