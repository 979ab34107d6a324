/** `earshot rules audit`: every rule with physics against the model, with its cause in and out. */
import { auditRules } from '../casework/audit-rules.ts';
import { defaultBike } from '../dynamics/index.ts';
import { auditText } from '../report/audit-text.ts';
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
  const { rows, unreached, without } = auditRules(rules, KINDS.map(defaultBike), (count) => {
    if (io.stderrIsTty) io.err(`\r${count} rules run `);
  });
  if (io.stderrIsTty) io.err('\r\u001b[K');
  if (options.format === 'json') {
    const data = { format: 1, bikes: KINDS, rules: rows, unreached, withoutPhysics: without };
    await io.out(`${JSON.stringify(data, null, 2)}\n`);
  } else await io.out(auditText(rows, unreached, without, KINDS, options.full, options.style));
  const wrong = rows.some((r) => r.verdict === 'disagree' && r.reason === undefined);
  return wrong ? EXIT.some : EXIT.done;
}
