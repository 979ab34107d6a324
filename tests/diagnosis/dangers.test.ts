import { expect, it } from 'vitest';
import { dangersOf, saidClosest, type Danger } from '../../src/diagnosis/gates.ts';

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

it('are said with the closer word of what was asked because of them', () => {
  const danger = (question: string, answer: string, caution: string): Danger => ({
    question,
    answer,
    caution,
  });
  const rules = {
    questions: [
      { id: 'found', gates: [] },
      { id: 'where', gates: [{ on: 'question', id: 'found', values: ['loose'] }] },
      { id: 'end', gates: [{ on: 'question', id: 'found', values: ['loose', 'leak'] }] },
    ],
    cautions: [
      { id: 'stop-loose', show: 'with' },
      { id: 'stop-axle', show: 'with' },
      { id: 'stop', show: 'alone' },
    ],
  } as unknown as Parameters<typeof saidClosest>[0];
  const found = danger('found', 'loose', 'stop-loose');
  const where = danger('where', 'axle', 'stop-axle');
  const end = danger('end', 'front', 'stop');
  expect(saidClosest(rules, [found, where])).toEqual([where]);
  expect(saidClosest(rules, [found])).toEqual([found]);
  // Which says no more than that it stops takes nothing's place, nor does what was asked because of something else.
  expect(saidClosest(rules, [found, end])).toEqual([found, end]);
  expect(saidClosest(rules, [{ ...found, answer: 'crack' }, where])).toHaveLength(2);
});

it('is none where a further look found it harmless, at whichever answer that was', () => {
  const loose = { id: 'found', dangerous: { loose: 'stop' }, harmlessWhen: { loose: { where: ['pads'] } } };
  const told = (where: string, also: readonly string[] = []) =>
    dangersOf(loose, ['loose'], { answers: new Map([['where', where]]), also: new Map([['where', also]]) });
  expect(told('pads')).toEqual([]);
  expect(told('headset').map((d) => d.caution)).toEqual(['stop']);
  expect(dangersOf(loose, ['loose'], { answers: new Map() }).map((d) => d.caution)).toEqual(['stop']);
});
