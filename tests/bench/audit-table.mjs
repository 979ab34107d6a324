/**
 * Audits every rule with physics on all the bikes of the command, and keeps the result for the test that holds it:
 * node tests/bench/audit-table.mjs      (after npm run build; takes about a minute)
 * A line a rule: its verdict on all bikes, and what the first few bikes alone show, which the test works out again.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { auditRules } from '../../dist/casework/audit-rules.js';
import { BIKES } from '../../dist/cli/commands/rules/audit.js';
import { plausibleBikes } from '../../dist/physics/index.js';

const FEW = 6;
const rules = JSON.parse(readFileSync(new URL('../../dist/rules/base.json', import.meta.url), 'utf8'));
const bikes = plausibleBikes(BIKES);
const all = auditRules(rules, bikes, (n) => process.stderr.write(`\r${n} of ${BIKES} bikes `));
const few = auditRules(rules, bikes.slice(0, FEW));
const short = (x) => Number(x.toPrecision(6));
const seen = ({ share, change }) => ({ share: short(share), change: short(change) });
const lines = all.rows.map((row, i) => {
  const { question, cause, scenario, metric, sign, verdict } = row;
  const claim = `${question} › ${cause}: ${scenario} ${metric} ${sign}`;
  return { claim, verdict, all: seen(row.finding), few: seen(few.rows[i].finding) };
});
const head = { bikes: BIKES, few: FEW };
writeFileSync(
  new URL('../casework/audit-table.ndjson', import.meta.url),
  [head, ...lines].map((line) => `${JSON.stringify(line)}\n`).join(''),
);
const against = all.rows.filter((row) => row.verdict !== 'agree');
process.stderr.write(`\n${all.rows.length} rules, ${against.length} not agreed with\n`);
