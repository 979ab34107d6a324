/** `earshot rules audit`: every rule with physics against the model, with its cause in and out. */
import { auditRules, unargued } from '../casework/audit-rules.ts';
import { plausibleBikes } from '../dynamics/index.ts';
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

/** A hundred and two, so that each kind of bike comes as often. */
export const BIKES = 102;

export async function rulesAudit(options: AuditOptions, io: Io): Promise<ExitCode> {
  const rules = await loadRules(io, options.rules);
  const { rows, unreached, without } = auditRules(rules, plausibleBikes(BIKES), (count) => {
    if (io.stderrIsTty) io.err(`\r${count} of ${BIKES} bikes ridden `);
  });
  if (io.stderrIsTty) io.err('\r\u001b[K');
  if (options.format === 'json') {
    const data = { format: 1, bikes: BIKES, rules: rows, unreached, withoutPhysics: without };
    await io.out(`${JSON.stringify(data, null, 2)}\n`);
  } else await io.out(auditText(rows, unreached, without, BIKES, options.full, options.style));
  return rows.some(unargued) ? EXIT.some : EXIT.done;
}
