/** What a rider asks about doing is answered by the same belief as the advice. */
import { expect, it } from 'vitest';
import { consult } from '../../src/casework/consult.ts';
import { PLAIN } from '../../src/report/style.ts';
import type { Result } from '../../src/report/result/result.ts';
import { toResult } from '../../src/report/result/to-result.ts';
import { askedLines } from '../../src/report/verdict/asked-lines.ts';
import { buildTriedReader } from '../../src/words/tried/tried.ts';
import { bench, caseOf, model, rules, SOUND } from '../support/told.ts';

const reader = buildTriedReader(rules);
const PACKS = {
  ...SOUND,
  'hit-pattern': 'row',
  'repeated-hits.trend@front': 'worse',
  'repeated-hits.depth@front': 'deeper',
  'push-return@front': 'creeps',
};

function resultOf(said: string, answers: Readonly<Record<string, string>>): Result {
  const kase = caseOf(answers, { said });
  const c = consult(model, bench, kase, { next: true, explain: 5, fit: true });
  return toResult(model, kase, c, { wishes: reader.wishes(said) });
}
const lines = (r: Result): string[] => askedLines(r, { style: PLAIN, rules, audience: 'rider' });

it('what is advised is said to be so, at the end where it helps', () => {
  const result = resultOf('Should I open the rebound?', PACKS);
  expect(result.verdict).toBe('change');
  expect(result.asked).toHaveLength(1);
  expect(lines(result)).toEqual(['  - "Should I open the rebound": yes, that is this change.']);
});

it('what would ride worse is told with its odds', () => {
  const result = resultOf('Should I close the rebound of the fork?', PACKS);
  const [asked] = result.asked!;
  expect(asked!.worse).toBeGreaterThan(asked!.better);
  expect(lines(result)[0]).toMatch(/: no\b/);
});

it('nothing is answered where nothing was asked, nor below STOP', () => {
  expect(resultOf('The fork packs down', PACKS).asked).toBeUndefined();
  const stopped = resultOf('Should I open the rebound?', { ...PACKS, 'safety.found': 'crack' });
  expect(stopped.verdict).toBe('stop');
  expect(stopped.asked).toBeUndefined();
});

it('what nobody knows is left out', () => {
  const result = resultOf('Should I open the rebound?', PACKS);
  const wishes = [{ ...reader.wishes('Should I open the rebound?')[0]!, setting: 'no-such-thing' }];
  const kase = caseOf(PACKS);
  const c = consult(model, bench, kase, { next: true, explain: 5, fit: true });
  expect(result.asked).toBeDefined();
  expect(toResult(model, kase, c, { wishes }).asked).toBeUndefined();
});
