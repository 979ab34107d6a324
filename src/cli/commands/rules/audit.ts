/** `earshot rules audit`: every rule with physics against the model, with its cause in and out. */
import { json } from '../../../form/text.ts';
import { command, flag, format } from '../../takes.ts';
import { auditRules, unargued } from '../../../casework/audit-rules.ts';
import { plausibleBikes } from '../../../physics/index.ts';
import { auditText } from '../../../report/rules/audit-text.ts';
import { EXIT } from '../../../host/io.ts';
import { loadRules } from '../../../workspace/rules/load-rules.ts';

/** A hundred and two, so that each kind of bike comes as often. */
export const BIKES = 102;

export const rulesAudit = command({
  about: 'the rules that carry physics, against the model of three default bikes',
  options: {
    full: flag('the numbers of every run, and what the model cannot reach'),
    format: format('text', 'json'),
  },
  examples: [['earshot rules audit', 'agree, disagree, or too small to say']],
  run: async (options, { io, rules: packs, style }) => {
    const rules = await loadRules(io, packs);
    const { rows, unreached, without } = auditRules(rules, plausibleBikes(BIKES), (count) => {
      if (io.stderrIsTty) io.err(`\r${count} of ${BIKES} bikes ridden `);
    });
    if (io.stderrIsTty) io.err('\r\u001b[K');
    if (options.format === 'json') {
      const data = { format: 1, bikes: BIKES, rules: rows, unreached, withoutPhysics: without };
      await io.out(json(data));
    } else await io.out(auditText(rows, unreached, without, BIKES, options.full, await style()));
    return rows.some(unargued) ? EXIT.some : EXIT.done;
  },
});
