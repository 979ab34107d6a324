/** What was tried is told as it was told: no amount that nobody said. */
import { expect, it } from 'vitest';
import { consult } from '../../src/casework/consult.ts';
import type { Tried } from '../../src/casework/case.ts';
import { toResult } from '../../src/report/result/to-result.ts';
import { evidenceText } from '../../src/report/evidence-words.ts';
import { bench, caseOf, model, rules } from '../support/told.ts';

const told = (over: Partial<Tried>): string[] => {
  const tried: Tried = { setting: 'rear.spring', direction: 'less', result: 'worse', putBack: 'no', ...over };
  const kase = { ...caseOf({ complaint: 'rows' }), tried: [tried] };
  const result = toResult(model, kase, consult(model, bench, kase, { next: false, explain: 5, fit: false }));
  return result.causes.flatMap(({ evidence }) =>
    evidence.filter((one) => one.tried !== undefined).map((one) => evidenceText(rules, one, 'mechanic')),
  );
};

it('says how far only where somebody said it', () => {
  expect(told({})).toContain('Tried before: rear spring less: worse');
  expect(told({ by: 12, unit: 'psi' })).toContain('Tried before: rear spring 12 psi less: worse');
  expect(told({ setting: 'rear.rebound.low', direction: 'open' })).toContain(
    'Tried before: rear low-speed rebound opened: worse',
  );
});
