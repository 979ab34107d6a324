/** Below a stop: what was found that stops it, in the words of the answers, before what may be behind it. */
import { expect, it } from 'vitest';
import { consult } from '../../src/casework/consult.ts';
import { toResult } from '../../src/report/result/to-result.ts';
import { textReport } from '../../src/report/text.ts';
import { bench, caseOf, model, rules } from '../support/told.ts';

const told = (answers: Readonly<Record<string, string>>) => {
  const kase = caseOf(answers);
  return toResult(model, kase, consult(model, bench, kase, { next: false, explain: 0, fit: false }));
};

it.each([
  [{ 'safety.found': 'crack' }, 'Found: a crack, a dent or a bent part'],
  [{ 'safety.found': 'crack', 'crash-check': 'bent' }, '; something bent, cracked or dented.'],
  [{ 'safety.found': 'none', 'safety.brakes': 'weak' }, 'Found: '],
])('%j is named', (answers, says) => {
  const result = told(answers as Record<string, string>);
  expect(result.verdict).toBe('stop');
  expect(textReport(result, { rules }).replaceAll(/\s+/g, ' ')).toContain(says);
});

it('is told of nothing where nothing stops the ride', () => {
  expect(told({ 'safety.found': 'none', complaint: 'rows' }).found).toBeUndefined();
});
