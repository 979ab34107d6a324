import { describe, expect, it } from 'vitest';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import { checksOf, complaintStands, foundNothing, heardNothing, lookedAt } from '../../src/advice/checks.ts';
import { consult } from '../../src/casework/consult.ts';
import type { Evidence } from '../../src/diagnosis/belief.ts';
import { buildModel } from '../../src/diagnosis/model.ts';
import { rulesOf } from '../support/compile-text.ts';

const question = (id: string, how: string, cause: string, rest = ''): string => `
  - id: ${id}
    ask: ${id}?
    plain: ${id}?
    help: Look.
    how: ${how}
    minutes: ${how === 'stand' ? 3 : 0.3}
    topic: ${id}
    answers: {'no': 'no', 'yes': 'yes'}
    default: 'no'
    when-several: cancel
    ${rest === '' ? "usually: {'yes': rarely}" : rest}
    points-to: {'yes': {${cause}: ${rest === '' ? 'usually' : 'always'}}}
    confusable-with: [{id: spring.too-soft, tell: look}]
    source: common-practice
    status: trial`;
const setting = (id: string): string => `
  - id: ${id}
    name: ${id}
    plain: ${id}
    kind: spring
    directions: {too-soft: {name: ${id} soft, plain: soft, prior: sometimes}}
    source: common-practice
    status: trial`;
const rules = rulesOf({
  'a.yaml': `
settings:${setting('spring')}${setting('tyre')}
questions:${['r1', 'r2', 'r3', 'r4'].map((q) => question(q, 'recall', 'spring.too-soft')).join('')}${['s1', 's2'].map((q) => question(q, 'stand', 'spring.too-soft')).join('')}${['other', 'other2'].map((q) => question(q, 'stand', 'tyre.too-soft')).join('')}${question('gauge', 'stand', 'spring.too-soft', 'measures: spring')}
adjustments:
  - {id: fix, do: fix it, plain: fix it, kind: spacer, minutes: 1, fixes: {spring.too-soft: 1}, way-back: undo, feel: it, cautions: [], source: common-practice, status: trial}
`,
});
const model = buildModel(rules);
const bench = prepareBike(model);
const at = (id: string): number => model.questionIndex.get(id)!;
const say = (id: string, answer = 1): Evidence => ({ question: at(id), answer, sure: 1 });
const sure = { causes: Float64Array.of(0.85, 0.1), nothing: 0.05 };
const tyre = { causes: Float64Array.of(0.1, 0.85), nothing: 0.05 };
const recalled = ['r1', 'r2', 'r3', 'r4'].map((id) => say(id));

/** The same with rarer causes, so that clean looks leave little of them. */
const quiet = buildModel({ ...rules, causes: rules.causes.map((c) => ({ ...c, prior: 0.01 })) });

describe('what is claimed with eight in ten or more', () => {
  it('waits for two looks at the bike that could speak against it', () => {
    const done = (...evidence: Evidence[]): boolean => checksOf(model, tyre, evidence, 0).done;
    expect(done(...recalled)).toBe(false);
    expect(done(...recalled, say('other'))).toBe(false);
    expect(done(...recalled, say('other'), say('s1', 0))).toBe(false);
    expect(done(...recalled, say('other'), say('other2'))).toBe(true);
  });
  it('waits for the gauge where there is one, or for its reading on the sheet', () => {
    const done = (evidence: readonly Evidence[], onSheet: readonly number[] = []): boolean =>
      checksOf(model, sure, evidence, 0, new Set(onSheet)).done;
    expect(done([...recalled, say('s1'), say('s2')])).toBe(false);
    expect(done([...recalled, say('gauge')])).toBe(true);
    expect(done(recalled, [1])).toBe(false);
    expect(done(recalled, [0])).toBe(true);
    // Clicks on a sheet are where a knob stands, no gauge of whether that is right.
    expect(checksOf(model, tyre, recalled, 0, new Set([1])).done).toBe(false);
  });
  it('waits for nothing while less is claimed, also because it may be none of the causes', () => {
    expect(checksOf(model, { ...sure, causes: Float64Array.of(0.79, 0.1) }, recalled, 0).done).toBe(true);
    expect(checksOf(model, sure, recalled, 0.1).done).toBe(true);
  });
  it('makes an interview that would stop ask for those looks, and stop once they are made', () => {
    const think = (ids: readonly string[]) =>
      consult(
        model,
        bench,
        {
          id: 'x',
          answers: ids.map((question) => ({ question, answer: 'yes', sure: 'sure' })),
          results: [],
          earlier: [],
        },
        { next: true, explain: 0, fit: false },
      );
    const told = think(['r1', 'r2', 'r3', 'r4']);
    expect(told.stop).toBeUndefined();
    expect(told.checked).toBe(false);
    const first = model.rules.questions[told.open[0]!.question]!.id;
    expect(first).toBe('gauge');
    expect(think(['r1', 'r2', 'r3', 'r4', 'gauge'])).toMatchObject({ stop: 'enough', checked: true });
  });
});

describe('"nothing is off"', () => {
  it('needs as many looks that found nothing where the rider noticed something', () => {
    expect(foundNothing(model, [say('r1'), say('r2', 0), say('r3', 0)])).toBe(false);
    expect(foundNothing(model, [say('r1'), say('s1', 0)])).toBe(false);
    expect(foundNothing(model, [say('r1'), say('s1', 0), say('other', 1)])).toBe(false);
    expect(foundNothing(model, [say('r1'), say('s1', 0), say('other', 0)])).toBe(true);
  });
  it('needs none where nothing was noticed', () => {
    expect(foundNothing(model, [say('r1', 0), say('r2', 0)])).toBe(true);
  });
});

describe('nothing heard that is wrong', () => {
  const { numbers } = model.rules;
  const asking = { ...numbers.asking, 'heard-nothing': 3 };
  const soon = { ...model, rules: { ...model.rules, numbers: { ...numbers, asking } } };
  const heard = (nothing: number, ...evidence: Evidence[]): boolean =>
    heardNothing(soon, { nothing }, evidence, 0);
  const clean = [say('r1', 0), say('r2', 0), say('r3', 0)];
  it('is so many answers without a sign, where nothing off is the likeliest', () => {
    expect(heard(0.7, ...clean)).toBe(true);
    expect(heard(0.7, ...clean, say('r4'))).toBe(true);
    expect(heard(0.7, ...clean.slice(1), say('r4'))).toBe(false);
    expect(heard(0.59, ...clean)).toBe(false);
    expect(heardNothing(soon, { nothing: 0.7 }, clean, 0.2)).toBe(false);
  });
  it('is not so where a complaint stands, nor in a pack that says no number', () => {
    expect(heard(0.7, ...clean.slice(1), say('s1', 0), say('r1'), say('r4'))).toBe(false);
    expect(heardNothing(model, { nothing: 0.7 }, clean, 0)).toBe(false);
  });
});

describe('looked at', () => {
  it('is a bike after two looks, and no longer once there is nothing left to look at', () => {
    const { numbers } = model.rules;
    const over = (looks: number) => {
      const rules = {
        ...model.rules,
        numbers: { ...numbers, asking: { ...numbers.asking, 'looked-over': looks } },
      };
      return (...ids: string[]): boolean =>
        lookedAt(
          { ...model, rules },
          ids.map((id) => say(id, 0)),
        );
    };
    expect(over(4)('r1', 's1')).toBe(false);
    expect(over(4)('s1', 's2')).toBe(true);
    expect(over(4)('s1', 's2', 'other', 'other2')).toBe(false);
    expect(over(5)('s1', 's2', 'other', 'other2')).toBe(true);
  });
});

describe('a complaint that stands', () => {
  it('is none that only a safety question brought up', () => {
    const questions = model.rules.questions.map((q) => (q.id === 'r2' ? { ...q, safety: true } : q));
    const safe = { ...model, rules: { ...model.rules, questions } };
    expect(complaintStands(model, [say('r1'), say('r2')], 0.6)).toBe(true);
    expect(complaintStands(safe, [say('r1'), say('r2')], 0.6)).toBe(false);
  });
  it('is one told in two topics, whatever was looked at; one sign alone, or a look, is none', () => {
    expect(complaintStands(model, [say('r1'), say('r2', 0), say('s1')], 0.6)).toBe(false);
    expect(complaintStands(model, [say('r1'), say('r2'), say('s1', 0), say('other', 0)], 0.6)).toBe(true);
  });
  it('is what the rider says bothers him, where he was asked, and nothing that he noticed only when asked', () => {
    const asked = { ...model.rules.numbers, 'one-impression': { prior: 0, bound: 0, of: 'r1' } };
    const own = { ...model, rules: { ...model.rules, numbers: asked } };
    expect(complaintStands(own, [say('r1', 0), say('r2'), say('r3'), say('r4')], 0.6)).toBe(false);
    expect(complaintStands(own, [say('r1'), say('r2', 0), say('s1', 0), say('s2', 0)], 0.6)).toBe(true);
    expect(complaintStands(own, [say('r2'), say('r3')], 0.6)).toBe(true);
    expect(complaintStands(own, [say('r2')], 0.6)).toBe(false);
  });
  it('is one sign, however right the bike looks, of a rider who came with words of his own', () => {
    expect(complaintStands(model, [say('r1'), say('r2', 0)], 0.9, true)).toBe(true);
    expect(complaintStands(model, [say('r1', 0), say('r2', 0)], 0.9, true)).toBe(false);
    expect(complaintStands(model, [say('r1'), say('r2', 0)], 0.9)).toBe(false);
  });
  it('is not only where or since when it is, once as many answers as are worth asking for told of nothing', () => {
    const { asking } = model.rules.numbers;
    const numbers = { ...model.rules.numbers, asking: { ...asking, 'heard-nothing': 3 } };
    const questions = model.rules.questions.map((q) =>
      q.id === 'r1' ? { ...q, circumstance: true as const } : q,
    );
    const own = { ...model, rules: { ...model.rules, numbers, questions } };
    const clean = [say('r2', 0), say('r3', 0), say('s1', 0)];
    expect(complaintStands(own, [say('r1'), ...clean], 0.9, true)).toBe(false);
    expect(complaintStands(own, [say('r1'), ...clean.slice(1)], 0.9, true)).toBe(true);
    expect(complaintStands(own, [say('r1'), say('r4'), ...clean], 0.9, true)).toBe(true);
  });
  it('is what no sound bike does, whatever is likely', () => {
    const questions = model.rules.questions.map((q) => (q.id === 's1' ? { ...q, neverNormal: [1] } : q));
    const strange = { ...model, rules: { ...model.rules, questions } };
    expect(complaintStands(strange, [say('s1')], 0.99)).toBe(true);
    expect(complaintStands(strange, [say('s1', 0)], 0.99)).toBe(false);
  });
  it('is not told that nothing is off, although the looks found nothing, unless that is likely enough to be claimed', () => {
    const { asking } = quiet.rules.numbers;
    const verdict = (told: readonly string[], claim = 1) => {
      const numbers = { ...quiet.rules.numbers, asking: { ...asking, claim } };
      const own = { ...quiet, rules: { ...quiet.rules, numbers } };
      return consult(
        own,
        prepareBike(own),
        {
          id: 'x',
          answers: ['r1', 'r2', 'r3', 'r4', 'gauge', 's1', 's2', 'other'].map((question) => ({
            question,
            answer: told.includes(question) ? 'yes' : 'no',
            sure: 'sure',
          })),
          results: [],
          earlier: [],
        },
        { next: true, explain: 0, fit: false },
      ).advice;
    };
    expect(verdict(['r1'])).toMatchObject({ verdict: 'leave' });
    expect(verdict(['r1', 'r2'])).toMatchObject({ verdict: 'unknown', because: 'unexplained' });
    expect(verdict(['r1', 'r2'], asking['nothing-off'])).toMatchObject({ verdict: 'leave' });
    const stands = (nothing: number): boolean => complaintStands(quiet, [say('r1'), say('r2')], nothing);
    expect([stands(asking.claim - 0.01), stands(asking.claim)]).toEqual([true, false]);
  });
});
