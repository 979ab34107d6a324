import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { auditRules, unargued, type AuditRow } from '../../src/casework/audit-rules.ts';
import { BIKES } from '../../src/cli/commands/rules/audit.ts';
import { plausibleBikes } from '../../src/physics/index.ts';
import type { Question } from '../../src/rulebase/compiled.ts';
import { baseRules } from '../support/base-rules.ts';

const { rules } = baseRules();
const FEW = plausibleBikes(9);
const TREND = 'repeated-hits.trend@front';
const one = (change: (physics: NonNullable<Question['physics']>) => NonNullable<Question['physics']>) => ({
  ...rules,
  questions: rules.questions
    .filter((q) => q.id === TREND)
    .map((q) => ({ ...q, physics: change(q.physics!) })),
});

interface Seen {
  readonly share: number;
  readonly change: number;
}
interface Line {
  readonly claim: string;
  readonly verdict: AuditRow['verdict'];
  readonly all: Seen;
  readonly few: Seen;
}
/** The audit on all the bikes of `rules audit` takes a minute, so its result is kept, a line a rule. */
const [head, ...kept] = readFileSync(join(import.meta.dirname, 'audit-table.ndjson'), 'utf8')
  .trim()
  .split('\n')
  .map((line) => JSON.parse(line) as unknown) as [{ bikes: number; few: number }, ...Line[]];
const MEND = 'Work the table out again: npm run build && node tests/bench/audit-table.mjs';
const claimOf = ({ question, cause, scenario, metric, sign }: AuditRow): string =>
  `${question} › ${cause}: ${scenario} ${metric} ${sign}`;

describe('the built-in pack against the model', () => {
  /** Of all the bikes of the command the first few, two of each kind: every rule anew. */
  const { rows, without } = auditRules(rules, plausibleBikes(head.few));

  it('is the pack, and the model, of which the table of the whole audit tells', () => {
    expect(head.bikes).toBe(BIKES);
    expect(rows.map(claimOf).toSorted(), MEND).toEqual(kept.map(({ claim }) => claim).toSorted());
    const then = new Map(kept.map(({ claim, few }) => [claim, few]));
    // A change of physics that moves no reading by more than this moves no verdict that was clear.
    const moved = rows.filter(({ finding, ...row }) => {
      const { share, change } = then.get(claimOf({ finding, ...row }))!;
      const most = 0.02 * finding.floor + 0.02 * Math.abs(change);
      return Math.abs(finding.share - share) > 0.001 || Math.abs(finding.change - change) > most;
    });
    expect(moved.map(claimOf), MEND).toEqual([]);
  });
  it('has no rule that the bikes speak against, or do not agree on, without a reason given', () => {
    const reasons = new Map(rows.map((row) => [claimOf(row), row.reason]));
    const silent = kept.filter(
      ({ claim, verdict }) => verdict !== 'agree' && reasons.get(claim) === undefined,
    );
    expect(silent.map(({ claim, verdict }) => `${claim}: ${verdict}`)).toEqual([]);
    expect(kept.length).toBeGreaterThan(50);
    const carrying = new Set(rules.questions.filter((q) => q.physics !== undefined).map((q) => q.id));
    const asked = rules.questions.filter((q) => q.either === undefined);
    expect(without).toHaveLength(asked.length - carrying.size);
  });
  it('keeps verdicts that follow from the shares and changes beside them', () => {
    const floors = new Map(rows.map((row) => [claimOf(row), row.finding.floor]));
    expect(new Set(kept.map(({ verdict }) => verdict)).size).toBeGreaterThan(1);
    for (const { claim, verdict, all } of kept) {
      const small = Math.abs(all.change) < floors.get(claim)!;
      expect(verdict === 'too-small', claim).toBe(small);
      if (!small) expect(verdict === 'agree', claim).toBe(all.share >= 0.9);
    }
  });
});

describe('a rule', () => {
  it('is spoken against when its sign is turned round', () => {
    const right = auditRules(
      one((p) => p),
      FEW,
    ).rows;
    const turned = auditRules(
      one((p) => ({ ...p, sign: p.sign === 'up' ? 'down' : 'up' })),
      FEW,
    ).rows;
    const slow = 'front.rebound.high.too-slow';
    expect(right.find((r) => r.cause === slow)!.verdict).toBe('agree');
    const against = turned.find((r) => r.cause === slow)!;
    expect(against.verdict).toBe('disagree');
    expect([unargued({ ...against, reason: undefined }), unargued({ ...against, reason: 'x' })]).toEqual([
      true,
      false,
    ]);
  });

  it('is named with the reason where the model has nothing for it', () => {
    const { rows, unreached } = auditRules(
      one((p) => ({ ...p, scenario: 'moon' })),
      FEW,
    );
    expect(rows).toEqual([]);
    expect(unreached.join('\n')).toMatch(
      /^repeated-hits\.trend@front › .*: the model has no scenario moon$/m,
    );
  });
});
