import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { priorOf, update, wrongly, type Evidence } from '../../src/diagnosis/belief.ts';
import { buildModel } from '../../src/diagnosis/model.ts';
import { storiesOf } from '../../src/diagnosis/correlated-errors.ts';
import type { CompiledRules } from '../../src/rulebase/compiled.ts';
import { network, yesNo } from '../support/network.ts';

const told = (rules: CompiledRules, ...indices: number[]): (number[] | undefined)[] => {
  const stories = storiesOf(rules.questions, indices);
  return indices.map((i) => (stories.get(i) === undefined ? undefined : [...stories.get(i)!]));
};

const scale = (id: string, up: number, down: number) => ({
  id,
  answers: ['same', 'up', 'down'],
  base: [0, 0.1, 0.1],
  links: [
    [up, 1, 0.7],
    [down, 2, 0.7],
  ] as const,
  group: 'g',
});

describe('the stories of a wrong impression', () => {
  it('fit answers that point to the same causes, whatever their order', () => {
    const rules = network({ priors: [0.1, 0.1], questions: [scale('a', 0, 1), scale('b', 1, 0)] });
    expect(told(rules, 0, 1)).toEqual([
      [0, 1, 2],
      [0, 2, 1],
    ]);
  });
  it('fit each answer equally often, and the default where a question has no word for one', () => {
    const rules = network({
      priors: [0.1, 0.1],
      questions: [scale('a', 0, 1), yesNo('b', 0.1, { 0: 0.7 }, 'g')],
    });
    // Six stories: two that all is the same, two of up, two of down; "yes" is up, and "no" is said of down.
    expect(told(rules, 0, 1)).toEqual([
      [0, 0, 1, 1, 2, 2],
      [0, 1, 1, 1, 0, 0],
    ]);
  });
  it('are none for a question that points to nothing the others point to', () => {
    const rules = network({
      priors: [0.1, 0.1],
      questions: [yesNo('a', 0.1, { 0: 0.7 }, 'g'), yesNo('b', 0.1, { 1: 0.7 }, 'g')],
    });
    expect(told(rules, 0, 1)).toEqual([[0, 1], undefined]);
  });
});

describe('answers under a wrong impression', () => {
  const rules = network({
    priors: [0.1, 0.1, 0.1],
    questions: [scale('a', 0, 1), yesNo('b', 0.1, { 0: 0.7 }, 'g'), yesNo('c', 0.1, { 1: 0.4, 2: 0.7 }, 'g')],
  });
  const model = buildModel(rules, 0.1);
  const sizes = rules.questions.map((q) => q.answers.length);
  it('have a distribution in which a single answer is any, alike', () => {
    fc.assert(
      fc.property(fc.constantFrom(1, 0.75, 0.4), fc.nat(2), fc.nat(1), fc.nat(1), (sure, a, b, c) => {
        const all: Evidence[] = [a, b, c].map((answer, question) => ({ question, answer, sure }));
        expect(wrongly(model, 0, [all[0]!])).toBeCloseTo(1 / sizes[0]!, 12);
        // What is said of one question adds up to what is said without it.
        for (let left = 0; left < all.length; left++) {
          const rest = all.filter((_, i) => i !== left);
          const sum = Array.from({ length: sizes[left]! }, (_, answer) =>
            wrongly(model, 0, [...rest, { question: left, answer, sure }]),
          ).reduce((s, p) => s + p, 0);
          expect(sum).toBeCloseTo(wrongly(model, 0, rest), 12);
        }
      }),
    );
  });
});

describe('one answer told again in other words', () => {
  const twins = (bound: number): CompiledRules => {
    const rules = network({
      priors: [0.1, 0.1],
      questions: ['a', 'b', 'c'].map((id) => yesNo(id, 0.07, { 0: 0.75 }, 'g')),
    });
    return { ...rules, numbers: { ...rules.numbers, 'one-story': { recall: bound, ride: bound, stand: 0 } } };
  };
  /** Decibans for the cause after so many agreeing answers. */
  const decibans = (bound: number, count: number): number => {
    const model = buildModel(twins(bound), 0.1);
    const odds = (evidence: Evidence[]): number => {
      const p = update(model, priorOf(model), evidence).causes[0]!;
      return 10 * Math.log10(p / (1 - p));
    };
    return (
      odds(Array.from({ length: count }, (_, question) => ({ question, answer: 1, sure: 1 }))) - odds([])
    );
  };
  it('adds less than three decibans, where answers for themselves would add more', () => {
    expect(decibans(0.9, 1)).toBeCloseTo(decibans(0, 1), 10);
    expect(decibans(0.9, 2) - decibans(0.9, 1)).toBeLessThan(3);
    expect(decibans(0.9, 2) - decibans(0.9, 1)).toBeGreaterThan(0);
    expect(decibans(0, 2) - decibans(0, 1)).toBeGreaterThan(3);
    expect(decibans(0.9, 3)).toBeLessThan(decibans(0, 2));
  });
});
