/** `earshot rules audit`: every rule with physics against the model, with its cause in and out. */
import { defaultBike, makeAuditor, type Finding } from '../dynamics/index.ts';
import { auditText, type AuditRow } from '../report/audit-text.ts';
import type { Style } from '../report/style.ts';
import { EXIT, type ExitCode, type Io } from './io.ts';
import { loadRules } from './load-rules.ts';

export interface AuditOptions {
  readonly rules: readonly string[];
  readonly format: 'text' | 'json';
  readonly full: boolean;
  readonly style: Style;
}

const KINDS = ['trail', 'enduro', 'downhill'] as const;

export async function rulesAudit(options: AuditOptions, io: Io): Promise<ExitCode> {
  const rules = await loadRules(io, options.rules);
  const auditors = KINDS.map((kind) => makeAuditor(defaultBike(kind)));
  const rows: AuditRow[] = [];
  const unreached: string[] = [];
  for (const q of rules.questions) {
    if (q.physics === undefined) continue;
    const { scenario, metric, sign, answer, disagree } = q.physics;
    for (const [index, at] of q.links) {
      if (at !== answer) continue;
      const cause = rules.causes[index]!;
      const setting = rules.settings[cause.setting]!;
      if (setting.end === undefined) {
        unreached.push(`${q.id} › ${cause.id}: the model knows no ${setting.id}`);
        continue;
      }
      const path = setting.id.slice(setting.end.length + 1);
      const findings: Finding[] = auditors.map((a) =>
        a.audit({ scenario, metric, sign }, { end: setting.end!, setting: path, direction: cause.direction }),
      );
      const lost = findings.find((f) => f.verdict === 'unreachable');
      if (lost !== undefined) unreached.push(`${q.id} › ${cause.id}: ${lost.why}`);
      else
        rows.push({
          question: q.id,
          cause: cause.id,
          scenario,
          metric,
          sign,
          findings,
          reason: disagree[cause.id],
        });
    }
    if (io.stderrIsTty) io.err(`\r${rows.length} rules run `);
  }
  if (io.stderrIsTty) io.err('\r\u001b[K');
  const none = rules.questions.filter((q) => q.physics === undefined).map((q) => q.id);
  const wrong = rows.filter((r) => verdictOf(r.findings) === 'disagree' && r.reason === undefined);
  if (options.format === 'json') {
    await io.out(
      `${JSON.stringify({ format: 1, bikes: KINDS, rules: rows.map((r) => ({ ...r, verdict: verdictOf(r.findings) })), unreached, withoutPhysics: none }, null, 2)}\n`,
    );
  } else
    await io.out(
      auditText(
        rows.map((r) => ({ ...r, verdict: verdictOf(r.findings) })),
        unreached,
        none,
        KINDS,
        options.full,
        options.style,
      ),
    );
  return wrong.length === 0 ? EXIT.done : EXIT.some;
}

/** Over several bikes: the model disagrees when it does so more often than it agrees. */
function verdictOf(findings: readonly Finding[]): 'agree' | 'disagree' | 'too-small' {
  const count = (v: Finding['verdict']): number => findings.filter((f) => f.verdict === v).length;
  if (count('disagree') > count('agree')) return 'disagree';
  return count('agree') > 0 ? 'agree' : 'too-small';
}
