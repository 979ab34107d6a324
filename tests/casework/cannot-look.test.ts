/** Looks at the bike before much is claimed, asked of a rider who cannot make them. */
import { expect, it } from 'vitest';
import type { Case } from '../../src/casework/case.ts';
import { consult } from '../../src/casework/consult.ts';
import { CANNOT_TELL } from '../../src/rulebase/compiled.ts';
import { baseRules } from '../support/base-rules.ts';
import { answersOf, bench, model, SOUND } from '../support/told.ts';

/** Every so many of the checks. */
const EVERY = 31;

it('stops asking for looks once as many as are wanted could not be told', () => {
  const { checks, rules } = baseRules();
  const most = rules.numbers.asking.checks;
  let looked = 0;
  checks.forEach(({ given, bike }, i) => {
    if (i % EVERY > 0 || bike !== undefined) return;
    const told = Object.entries(given).map(([id, said]) => [
      id,
      typeof said === 'string' ? said : said.answer,
    ]);
    const answers = answersOf({ ...SOUND, ...(Object.fromEntries(told) as Record<string, string>) });
    let inARow = 0;
    for (let n = 0; n < 2 * rules.numbers.asking['most-questions']; n++) {
      const kase: Case = { id: 'x', answers, results: [], earlier: [] };
      const { stop, open, looking } = consult(model, bench, kase, { next: true, explain: 0, fit: false });
      if (stop !== undefined || open[0] === undefined) break;
      const { id, answers: all, default: usual, how, safety } = rules.questions[open[0].question]!;
      const answer = how === 'stand' && !safety ? CANNOT_TELL : all[usual]!.id;
      answers.push({ question: id, answer, sure: 'sure' });
      inARow = looking ? inARow + 1 : 0;
      if (looking) looked++;
      // One claim may take the place of another once.
      expect(inARow, answers.map((a) => a.question).join(' ')).toBeLessThanOrEqual(2 * most);
    }
  });
  expect(looked).toBeGreaterThan(0);
});
