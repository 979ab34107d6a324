/** Chances of separate causes that come to more than one are said to be no slip; what has only a name is told in words. */
import { expect, it } from 'vitest';
import { changeWords, wayWords } from '../../src/report/bike/change-words.ts';
import { evidenceText } from '../../src/report/evidence-words.ts';
import { runningLine } from '../../src/report/interview-text.ts';
import { markdownReport } from '../../src/report/markdown.ts';
import { whyOf } from '../../src/report/pit-sheet/evidence.ts';
import { atOnceWords } from '../../src/report/phrases.ts';
import { toResult } from '../../src/report/result/to-result.ts';
import { consult } from '../../src/casework/consult.ts';
import { bench, caseOf, model } from '../support/told.ts';

const { rules } = model;

it.each([
  [[0.6, 0.5], 10, true],
  [[0.6, 0.4], 10, false],
  // As they are told: 6 and 5 in 10.
  [[0.55, 0.45], 10, true],
  [[0.52, 0.485], 100, true],
  [[0.52, 0.48], 100, false],
] as const)('says of %j, in %i parts, that they can be so at once: %s', (chances, whole, said) => {
  expect(atOnceWords(chances, whole) !== undefined).toBe(said);
});

it('says so in the line above a question', () => {
  const line = (...chances: number[]): string =>
    runningLine(3, '', {
      leaders: chances.map((probability, i) => ({ id: `c${i}`, name: `cause ${i}`, probability })),
    } as never);
  expect(line(0.8, 0.4)).toBe('Question 3, so far: cause 0 80 %, cause 1 40 % (both can be true)');
  expect(line(0.6, 0.4)).not.toContain('both');
});

it('says so under the table of causes in Markdown, and on the pit sheet', () => {
  const said = (...answers: readonly (readonly [string, string])[]): readonly [string, readonly string[]] => {
    const kase = caseOf(Object.fromEntries(answers));
    const result = toResult(
      model,
      kase,
      consult(model, bench, kase, { next: false, explain: 3, fit: false }),
    );
    return [markdownReport(result, 'mechanic', rules), whyOf(rules, result)!.others];
  };
  const row = [['complaint', 'rows'], ['repeated-hits.trend@front', 'worse']] as const; // prettier-ignore
  const both = said(...row, ['repeated-hits.trend@rear', 'worse'], ['sag@rear', 'more']);
  expect(both[0]).toContain('| rear spring too soft |');
  expect(both[0]).toContain('these odds add up to more than one.');
  expect(both[1].at(-1)).toBe('more than one can be true');
  const one = said(['complaint', 'rows']);
  expect(one[0]).not.toContain('come to more than one');
  expect(one[1].at(-1)).toMatch(/%\)$/);
});

it('calls what was tried and has only a name by the words of the rules', () => {
  const deed = { name: 'front.spring.softer' };
  expect(changeWords(deed, undefined, rules)).toBe('let air out of the front spring');
  expect(wayWords(deed, rules)).toBe('let air out of the front spring');
  expect(changeWords({ name: 'a new part' }, undefined, rules)).toBe('a new part');
  const told = { question: 'tried front.spring.softer', answer: 'same', tried: deed };
  expect(evidenceText(rules, told, 'mechanic')).toBe(
    'Tried before: let air out of the front spring: no difference',
  );
});
