import { expect, it } from 'vitest';
import { dangersOf } from '../../src/diagnosis/gates.ts';

const question = {
  id: 'knob@front',
  dangerous: { undamped: 'stop' },
  dangerousWith: { none: { caution: 'stop-too', beside: { 'push@front': ['springs'], onset: ['sudden'] } } },
};

it.each([
  ['undamped', {}, 'stop'],
  ['none', {}, undefined],
  ['none', { 'push@front': 'once' }, undefined],
  ['none', { 'push@front': 'springs' }, 'stop-too'],
  ['none', { 'push@front': 'once', onset: 'sudden' }, 'stop-too'],
  ['none', { 'push@either': 'springs' }, 'stop-too'],
  ['none', { 'push@front': 'once', 'push@either': 'springs' }, undefined],
  ['none', { 'push@rear': 'springs' }, undefined],
  ['fine', { 'push@front': 'springs' }, undefined],
])('an answer is dangerous by itself, or beside another: %s with %o is %s', (answer, beside, caution) => {
  const known = { answers: new Map(Object.entries(beside as Record<string, string>)) };
  expect(dangersOf(question, [answer], known).map((d) => d.caution)).toEqual(
    caution === undefined ? [] : [caution],
  );
});

it('every answer counts where several were given, here and beside', () => {
  const known = { answers: new Map([['push@front', 'once']]), also: new Map([['push@front', ['springs']]]) };
  expect(dangersOf(question, ['fine', 'none'], known)).toEqual([
    { question: 'knob@front', answer: 'none', caution: 'stop-too' },
  ]);
});
