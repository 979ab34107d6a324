import { expect, it } from 'vitest';
import { consult } from '../../src/casework/consult.ts';
import type { CaseAnswer } from '../../src/casework/case.ts';
import { toResult } from '../../src/report/result/to-result.ts';
import { untilMeasured } from '../../src/report/verdict/until-words.ts';
import { bench, caseOf, model, rules } from '../support/told.ts';

const sag = (value: number): CaseAnswer => ({
  question: 'sag@rear',
  answer: 'more',
  sure: 'sure',
  measured: { value, unit: '%', band: [0.23, 0.32] },
});
const tyre = (value: number): CaseAnswer => ({
  question: 'tyre-target@front',
  answer: 'over',
  sure: 'sure',
  measured: { value: value * 1e5, unit: 'bar', band: [1.5e5, 1.7e5] },
});

it.each([
  ['air, for too much sag', sag(0.43), { setting: 'rear.spring', by: 10, unit: 'psi' }, '27.5 %'],
  ['less air, for too little', sag(0.1), { setting: 'rear.spring', by: -10, unit: 'psi' }, '27.5 %'],
  ['less in a tyre that is too hard', tyre(2.4), { setting: 'front.tyre', by: -2, unit: 'psi' }, '1.6 bar'],
  ['more in one that is too soft', tyre(1.1), { setting: 'front.tyre', by: 2, unit: 'psi' }, '1.6 bar'],
] as const)('says how long to go on with %s', (_, answer, step, figure) => {
  expect(untilMeasured(step, [answer], rules, undefined)).toBe(
    `then measure again, and repeat until it is about ${figure}`,
  );
});
it.each([
  ['of sag on target', sag(0.27), { setting: 'rear.spring', by: 10, unit: 'psi' }],
  ['of a step the other way', sag(0.43), { setting: 'rear.spring', by: -10, unit: 'psi' }],
  ['of a tyre that is let down already', tyre(1.1), { setting: 'front.tyre', by: -2, unit: 'psi' }],
  ['of the other end', sag(0.43), { setting: 'front.spring', by: 4, unit: 'psi' }],
] as const)('says nothing %s', (_, answer, step) => {
  expect(untilMeasured(step, [answer], rules, undefined)).toBeUndefined();
});
it('says where the rule stops, too', () => {
  const step = { setting: 'rear.spring', by: 10, unit: 'psi' } as const;
  const { repeat } = rules.adjustments.find(({ id }) => id === 'rear.spring.firmer')!;
  expect(untilMeasured(step, [sag(0.43)], rules, repeat)).toBe(
    'then measure again, and repeat until it is about 27.5 %; stop when it is at the maximum pressure (manufacturer)',
  );
});
it('stops at the same where the number or the answer alone was told', () => {
  const told: CaseAnswer = { question: 'sag@rear', answer: 'more', sure: 'sure' };
  for (const answer of [told, sag(0.43)]) {
    const kase = { ...caseOf({}), answers: [answer] };
    const { adjustments } = toResult(
      model,
      kase,
      consult(model, bench, kase, { next: true, explain: 5, fit: true }),
    );
    const { note } = adjustments.find(({ id }) => id === 'rear.spring.firmer')!;
    expect(note).toContain('stop when it is at the maximum pressure (manufacturer)');
  }
});
