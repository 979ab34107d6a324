import { readDeed } from '../../src/bike/deed.ts';
import { expect, it } from 'vitest';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import type { CaseAnswer } from '../../src/casework/case.ts';
import { buildModel } from '../../src/diagnosis/model.ts';
import { begin } from '../../src/interview/session.ts';
import { look } from '../../src/interview/settle.ts';
import type { Interview } from '../../src/interview/state.ts';
import { why } from '../../src/interview/why.ts';
import { rulesOf } from '../support/compile-text.ts';
import { SMALL } from '../support/small-rules.ts';

const model = buildModel(rulesOf({ 'a.yaml': SMALL }));
const bench = prepareBike(model);

const said = (question: string, answer: string): CaseAnswer => ({ question, answer, sure: 'sure' });
const results = [{ change: readDeed('front.rebound.low+2'), outcome: 'worse', kept: false }] as const;
const first = { answers: [said('pattern', 'row'), said('row.trend@front', 'worse')], results };

const QUESTION = 'row.trend@front';
const states: [string, Interview][] = [
  ['nothing was said yet', begin(model, bench, { id: 'x' })[0]],
  ['something was answered', begin(model, bench, { id: 'x', answers: [said('pattern', 'row')] })[0]],
  ['it was answered already', begin(model, bench, { id: 'x', answers: first.answers })[0]],
  ['a trial was ridden', begin(model, bench, { id: 'x', answers: [said('pattern', 'row')], results })[0]],
  [
    'an earlier round was ridden',
    begin(model, bench, { id: 'x', answers: first.answers, earlier: [first] })[0],
  ],
];

it.each(states)('tells of each answer what the interview believes once it is given, when %s', (_, state) => {
  const told = why(model, bench, state, QUESTION);
  const question = model.rules.questions[model.questionIndex.get(QUESTION)!]!;
  expect(told.map((w) => w.answer)).toEqual(question.answers.map((a) => a.id));
  for (const { answer, leads, nothing } of told) {
    const others = state.steps.filter((s) => s.question !== QUESTION);
    const after = look(model, bench, { ...state, steps: [...others, said(QUESTION, answer)] });
    expect(nothing).toBeCloseTo((1 - after.none) * after.belief.nothing, 12);
    const top = (1 - after.none) * Math.max(...after.belief.causes);
    expect(leads === null).toBe(nothing >= top);
    if (leads !== null) expect(leads.probability).toBeCloseTo(top, 12);
  }
});

it('has at least one answer that lets a cause lead, and one that does not', () => {
  const leads = why(model, bench, states[0]![1], QUESTION).map((w) => w.leads);
  expect(leads).toContain(null);
  expect(leads.some((l) => l !== null)).toBe(true);
});
