import { expect, it } from 'vitest';
import { dangerOf } from '../../src/diagnosis/gates.ts';

const question = {
  dangerous: { undamped: 'stop' },
  dangerousWith: { none: { caution: 'stop-too', beside: { push: ['springs'], onset: ['sudden'] } } },
};

it.each([
  ['undamped', {}, 'stop'],
  ['none', {}, undefined],
  ['none', { push: 'once' }, undefined],
  ['none', { push: 'springs' }, 'stop-too'],
  ['none', { push: 'once', onset: 'sudden' }, 'stop-too'],
  ['fine', { push: 'springs' }, undefined],
])('an answer is dangerous by itself, or beside another: %s with %o is %s', (answer, beside, caution) => {
  const given = beside as Record<string, string>;
  expect(dangerOf(question, answer, (id) => given[id])).toBe(caution);
});
