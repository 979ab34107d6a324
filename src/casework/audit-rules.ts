/** Every rule that carries physics against the model: many plausible bikes with the rule's cause out, and in. */
import { audit, type Asked, type Draw, type Finding, type Verdict } from '../physics/index.ts';
import type { CompiledRules } from '../rulebase/compiled.ts';

export interface AuditRow {
  readonly question: string;
  readonly cause: string;
  readonly scenario: string;
  readonly metric: string;
  readonly sign: 'up' | 'down';
  readonly finding: Exclude<Finding, { verdict: 'unreachable' }>;
  readonly verdict: Verdict;
  /** why it stands although the model does not agree */
  readonly reason: string | undefined;
}

export interface RulesAudit {
  readonly rows: readonly AuditRow[];
  /** question and cause that the model has nothing for, and why */
  readonly unreached: readonly string[];
  /** ids of the questions without physics */
  readonly without: readonly string[];
}

/** True for a row that nothing is written against: reversed, weak or too small, and no reason beside the rule. */
export function unargued(row: AuditRow): boolean {
  return row.verdict !== 'agree' && row.reason === undefined;
}

/** @param progress is told how many bikes were run: all rules take seconds */
export function auditRules(
  rules: Pick<CompiledRules, 'questions' | 'causes' | 'settings'>,
  draws: readonly Draw[],
  progress: (bikes: number) => void = () => undefined,
): RulesAudit {
  const claims: (Omit<AuditRow, 'finding' | 'verdict'> & { readonly asked: Asked })[] = [];
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
      const claim = { scenario, metric, sign };
      const reason = disagree[cause.id];
      claims.push({ question: q.id, cause: cause.id, ...claim, reason, asked: { claim, cause: off } });
    }
  }
  const findings = audit(
    draws,
    claims.map((c) => c.asked),
    progress,
  );
  const rows = claims.flatMap(({ asked: _, ...row }, i): AuditRow[] => {
    const finding = findings[i]!;
    if (finding.verdict !== 'unreachable') return [{ ...row, finding, verdict: finding.verdict }];
    unreached.push(`${row.question} › ${row.cause}: ${finding.why}`);
    return [];
  });
  return {
    rows,
    unreached,
    without: rules.questions.flatMap((q) =>
      q.physics === undefined && q.either === undefined ? [q.id] : [],
    ),
  };
}
