import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { groupFactor, priorOf, update, type Evidence } from '../../src/diagnosis/belief.ts';
import { effects } from '../../src/diagnosis/explain.ts';
import { fitOf } from '../../src/diagnosis/fit.ts';
import { gains } from '../../src/diagnosis/inquiry.ts';
import { plainPosterior } from '../support/plain/posterior.ts';
import { buildModel, withStrengths, withTelling } from '../../src/diagnosis/model.ts';
import { otherStrengths } from '../../src/diagnosis/other-strengths.ts';
import { posteriorOf } from '../../src/diagnosis/fast/class-marginals.ts';
import type { CompiledRules, Question } from '../../src/rulebase/compiled.ts';
import { network, type PlainQuestion } from '../support/network.ts';

/** Two questions at each end, of one topic, with one cause that both ends' answers point to. */
const drawn = fc.record({
  seed: fc.infiniteStream(fc.double({ min: 0.03, max: 0.9, noNaN: true })),
  most: fc.integer({ min: 1, max: 4 }),
  doubt: fc.constantFrom(0, 0.1, 0.3),
  answers: fc.array(
    fc.record({ question: fc.nat(5), answer: fc.nat(2), sure: fc.constantFrom(1, 0.75, 0.4) }),
    { minLength: 1, maxLength: 5 },
  ),
});

function sidedRules(next: () => number, most: number): CompiledRules {
  const at = (end: string, q: number, causes: readonly number[]): PlainQuestion => ({
    id: `q${q}@${end}`,
    answers: ['a0', 'a1', 'a2'],
    base: [0, next() * 0.3, next() * 0.3],
    links: causes.flatMap((c) => [[c, 1, next()] as const, [c, 2, next() * 0.5] as const]),
    several: 'any',
    group: `t@${end}`,
  });
  const rules = network({
    priors: [0, 1, 2, 3, 4].map(() => next() * 0.4),
    most,
    questions: [
      at('front', 0, [0, 1, 4]),
      at('front', 1, [0, 4]),
      at('rear', 0, [2, 3, 4]),
      at('rear', 1, [2, 4]),
    ],
  });
  const either = (q: number): Question => ({
    ...rules.questions[q]!,
    id: `q${q}@either`,
    group: 't@either',
    either: [q, q + 2],
    base: [],
    links: [],
  });
  return { ...rules, questions: [...rules.questions, either(0), either(1)] };
}

/** By hand: the story told once as one about the front, once as one about the rear, and the mean of both. */
function mixed(rules: CompiledRules, evidence: readonly Evidence[], doubt: number) {
  const told = ([0, 1] as const).map((end) =>
    plainPosterior(
      rules,
      evidence.map((e) => ({ ...e, question: rules.questions[e.question]!.either?.[end] ?? e.question })),
      doubt,
    ),
  );
  const weights = told[0]!.sets.map(({ causes: set, p }, i) => ({
    set,
    p: 0.5 * p * told[0]!.evidence + 0.5 * told[1]!.sets[i]!.p * told[1]!.evidence,
  }));
  const evidenceOf = weights.reduce((s, w) => s + w.p, 0);
  return {
    weights: weights.map((w) => w.p / evidenceOf),
    causes: rules.causes.map(
      (_, c) => weights.reduce((s, w) => s + (w.set.includes(c) ? w.p : 0), 0) / evidenceOf,
    ),
    evidence: evidenceOf,
  };
}

const entropy = (ps: readonly number[]): number =>
  -ps.reduce((s, p) => s + (p > 0 ? p * Math.log2(p) : 0), 0);

function told({
  seed,
  most,
  answers,
}: {
  seed: fc.Stream<number>;
  most: number;
  answers: readonly Evidence[];
}) {
  const rules = sidedRules(() => seed.next().value!, most);
  // One answer a question, and no question answered both at an end and without one: the case reader sees to that.
  const evidence = [...new Map(answers.map((a) => [a.question, a])).values()].filter(
    (e, _, all) =>
      e.question > 3 || !all.some((x) => rules.questions[x.question]!.either?.includes(e.question)),
  );
  return { rules, evidence };
}

describe('an answer whose end is not known', () => {
  it('is the mean of the answer at the front and the answer at the rear, within the impression of that end', () => {
    fc.assert(
      fc.property(drawn, ({ doubt, ...rest }) => {
        const { rules, evidence } = told(rest);
        const model = buildModel(rules, doubt);
        const belief = update(model, priorOf(model), evidence);
        const oracle = mixed(rules, evidence, doubt);
        oracle.causes.forEach((p, c) => expect(belief.causes[c]).toBeCloseTo(p, 10));
        expect(Math.exp(belief.logEvidence)).toBeCloseTo(oracle.evidence, 10);
      }),
      { numRuns: 150 },
    );
  });

  it('leaves every open question the information gain of its definition', () => {
    fc.assert(
      fc.property(drawn, ({ doubt, ...rest }) => {
        const { rules, evidence } = told(rest);
        const model = buildModel(rules, doubt);
        const belief = update(model, priorOf(model), evidence);
        const open = [0, 1, 2, 3].filter(
          (q) => !evidence.some((e) => e.question === q || rules.questions[e.question]!.either?.includes(q)),
        );
        const now = mixed(rules, evidence, doubt);
        for (const { question, bits } of gains(model, posteriorOf(model, belief), evidence, open)) {
          const after = [0, 1, 2].map((answer) =>
            mixed(rules, [...evidence, { question, answer, sure: 1 }], doubt),
          );
          const left = after.reduce((s, a) => s + (a.evidence / now.evidence) * entropy(a.weights), 0);
          expect(bits).toBeCloseTo(entropy(now.weights) - left, 8);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('can be explained: its decibans and those of the other answers lead from the odds without them to those with', () => {
    fc.assert(
      fc.property(drawn, ({ doubt, ...rest }) => {
        const { rules, evidence } = told({ ...rest, answers: [{ question: 4, answer: 1, sure: 1 }] });
        const model = buildModel(rules, doubt);
        const belief = update(model, priorOf(model), evidence);
        const before = update(model, priorOf(model), []);
        const odds = (p: number): number => 10 * Math.log10(p / (1 - p));
        const found = effects(model, belief, posteriorOf(model, belief), evidence, [0, 2, 4]);
        for (const c of [0, 2, 4])
          expect(found.get(c)![0]!.decibans).toBeCloseTo(
            odds(belief.causes[c]!) - odds(before.causes[c]!),
            6,
          );
        expect(
          Number.isFinite(fitOf(model, posteriorOf(model, belief), evidence, model.rules.numbers.fit)!.z),
        ).toBe(true);
      }),
      { numRuns: 40 },
    );
  });

  it('follows the strengths of the question at its ends when these are tried otherwise', () => {
    fc.assert(
      fc.property(drawn, fc.double({ min: 0.05, max: 0.95, noNaN: true }), ({ doubt, ...rest }, value) => {
        const { rules, evidence } = told({ ...rest, answers: [{ question: 4, answer: 1, sure: 1 }] });
        const model = buildModel(rules, doubt);
        const other = {
          ...rules.questions[2]!,
          links: rules.questions[2]!.links.map((l, i) => (i === 0 ? ([l[0], l[1], value] as const) : l)),
        };
        const changed = new Map([[2, other]]);
        const afresh = buildModel(
          { ...rules, questions: rules.questions.map((q, i) => (i === 2 ? other : q)) },
          doubt,
        );
        const wanted = update(afresh, priorOf(afresh), evidence).causes;
        update(model, priorOf(model), evidence);
        const tried = withStrengths(model, changed);
        const found = update(tried, priorOf(tried), evidence).causes;
        wanted.forEach((p, c) => expect(found[c]).toBeCloseTo(p, 10));
        const joint = model.groupOf[4]!;
        const ratio = otherStrengths(model, joint, evidence).ratio(changed);
        const had = groupFactor(model, joint, evidence);
        const has = groupFactor(afresh, joint, evidence);
        expect(ratio).toHaveLength(has.length);
        has.forEach((factor, c) => expect(ratio[c]).toBeCloseTo(factor / had[c]!, 10));
      }),
      { numRuns: 40 },
    );
  });

  it('is the model built anew where riders slip and mistake topics otherwise', () => {
    const shares = fc.record({ slip: fc.constantFrom(0, 0.2), trust: fc.constantFrom(0.05, 0.4) });
    fc.assert(
      fc.property(drawn, shares, (one, { slip, trust }) => {
        const { rules, evidence } = told(one);
        const numbers = {
          ...rules.numbers,
          slip: { ...rules.numbers.slip, recall: slip },
          trust: { ...rules.numbers.trust, recall: trust },
        };
        const model = buildModel(rules);
        update(model, priorOf(model), evidence);
        const other = withTelling(model, numbers);
        const afresh = buildModel({ ...rules, numbers });
        expect(update(other, priorOf(other), evidence)).toEqual(update(afresh, priorOf(afresh), evidence));
      }),
      { numRuns: 40 },
    );
  });
});
