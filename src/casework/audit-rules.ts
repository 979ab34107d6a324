/** Every rule that carries physics against the model: each bike with the rule's cause out, and in. */
import { makeAuditor, type Bike, type Finding } from '../dynamics/index.ts';
import type { CompiledRules } from '../rulebase/compiled.ts';

export interface AuditRow {
  readonly question: string;
  readonly cause: string;
  readonly scenario: string;
  readonly metric: string;
  readonly sign: 'up' | 'down';
  /** one a bike */
  readonly findings: readonly Finding[];
  /** over all bikes */
  readonly verdict: 'agree' | 'disagree' | 'too-small';
  /** why a disagreement stands */
  readonly reason: string | undefined;
}

export interface RulesAudit {
  readonly rows: readonly AuditRow[];
  /** question and cause that the model has nothing for, and why */
  readonly unreached: readonly string[];
  /** ids of the questions without physics */
  readonly without: readonly string[];
}

/** @param progress is told how many rows there are so far: a run of all rules takes seconds */
export function auditRules(
  rules: Pick<CompiledRules, 'questions' | 'causes' | 'settings'>,
  bikes: readonly Bike[],
  progress: (rows: number) => void = () => undefined,
): RulesAudit {
  const auditors = bikes.map((bike) => makeAuditor(bike));
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
      const off = {
        end: setting.end,
        setting: setting.id.slice(setting.end.length + 1),
        direction: cause.direction,
      };
      const findings = auditors.map((a) => a.audit({ scenario, metric, sign }, off));
      const lost = findings.find((f) => f.verdict === 'unreachable');
      if (lost !== undefined) {
        unreached.push(`${q.id} › ${cause.id}: ${lost.why}`);
        continue;
      }
      const reason = disagree[cause.id];
      const verdict = verdictOf(findings);
      rows.push({ question: q.id, cause: cause.id, scenario, metric, sign, findings, verdict, reason });
    }
    progress(rows.length);
  }
  return {
    rows,
    unreached,
    without: rules.questions.flatMap((q) =>
      q.physics === undefined && q.either === undefined ? [q.id] : [],
    ),
  };
}

/** Over several bikes: the model disagrees when it does so more often than it agrees. */
function verdictOf(findings: readonly Finding[]): AuditRow['verdict'] {
  const count = (v: Finding['verdict']): number => findings.filter((f) => f.verdict === v).length;
  if (count('disagree') > count('agree')) return 'disagree';
  return count('agree') > 0 ? 'agree' : 'too-small';
}
