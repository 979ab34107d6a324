import { describe, expect, it } from 'vitest';
import { priorOf, update } from '../../src/diagnosis/belief.ts';
import { answerProbabilities } from '../../src/diagnosis/answer-model.ts';
import { buildModel } from '../../src/diagnosis/model.ts';
import type { CompiledRules } from '../../src/rulebase/compiled.ts';
import { infer, yesNoNode, type Node } from '../support/bayes-net.ts';
import { bayesjsJoint } from '../support/bayesjs.mjs';
import { network, yesNo } from '../support/network.ts';

/** Posterior by the general-purpose library: two joint queries, because its enumeration is the part to trust. */
function byLibrary(nodes: readonly Node[], query: string, given: Record<string, string>): number {
  return bayesjsJoint(nodes, { [query]: 'yes' }, given);
}

// Russell & Norvig, AIMA ch. 14 (3rd ed.): burglary alarm; numbers as in the book's own Python code.
const burglary: Node[] = [
  yesNoNode('B', [], () => 0.001),
  yesNoNode('E', [], () => 0.002),
  yesNoNode('A', ['B', 'E'], (b, e) => (b ? (e ? 0.95 : 0.94) : e ? 0.29 : 0.001)),
  yesNoNode('J', ['A'], (a) => (a ? 0.9 : 0.05)),
  yesNoNode('M', ['A'], (a) => (a ? 0.7 : 0.01)),
];

// Lauritzen & Spiegelhalter, J. R. Statist. Soc. B 50 (1988) 157–224: chest clinic; tables as in the gRain R package manual.
const clinic: Node[] = [
  yesNoNode('asia', [], () => 0.01),
  yesNoNode('smoke', [], () => 0.5),
  yesNoNode('tub', ['asia'], (a) => (a ? 0.05 : 0.01)),
  yesNoNode('lung', ['smoke'], (s) => (s ? 0.1 : 0.01)),
  yesNoNode('bronc', ['smoke'], (s) => (s ? 0.6 : 0.3)),
  yesNoNode('either', ['tub', 'lung'], (t, l) => (t || l ? 1 : 0)),
  yesNoNode('xray', ['either'], (e) => (e ? 0.98 : 0.05)),
  yesNoNode('dysp', ['either', 'bronc'], (e, b) => (e ? (b ? 0.9 : 0.7) : b ? 0.8 : 0.1)),
];

describe('the test enumerator and the general-purpose library against published posteriors', () => {
  it.each([
    ['B', { J: 'yes', M: 'yes' }, 0.2841718354],
    ['B', { J: 'yes' }, 0.0162837299],
    ['B', { A: 'yes' }, 0.3735512283],
    ['B', { A: 'yes', E: 'yes' }, 0.0032684236],
  ])('burglary: P(%s | %j) = %f', (query, given, expected) => {
    expect(infer(burglary, query, given).posterior['yes']).toBeCloseTo(expected, 9);
    expect(byLibrary(burglary, query, given)).toBeCloseTo(expected, 8);
  });

  it.each([
    ['lung', { asia: 'yes', dysp: 'yes' }, 0.09952515],
    ['bronc', { asia: 'yes', dysp: 'yes' }, 0.8114021],
    ['lung', { asia: 'yes', dysp: 'yes', smoke: 'yes' }, 0.1455191],
    ['bronc', { asia: 'yes', dysp: 'yes', smoke: 'yes' }, 0.8672582],
    ['lung', { xray: 'yes' }, 0.488711],
  ])('chest clinic: P(%s | %j) = %f', (query, given, expected) => {
    expect(infer(clinic, query, given).posterior['yes']).toBeCloseTo(expected, 6);
    expect(byLibrary(clinic, query, given)).toBeCloseTo(expected, 6);
  });

  it('gives the published probability of the evidence of the chest clinic', () => {
    expect(infer(clinic, 'lung', { asia: 'yes', dysp: 'yes' }).evidence).toBeCloseTo(0.004501375, 9);
  });
});

/** Our model written out as a general Bayes net: a node a cause, a trust node a topic, a node a question. */
function asNet(rules: CompiledRules, doubt: number): Node[] {
  const causes = rules.causes.map((c) => yesNoNode(c.id, [], () => c.prior));
  const groups = [...new Set(rules.questions.map((q) => q.group))];
  const trust = groups.map((g) => yesNoNode(`trust ${g}`, [], () => 1 - doubt));
  // A wrong impression is one of six stories, alike; which answer fits which is written out by hand. To q1's "worse" fits
  // q0's "yes", to its "better" q0's "no"; what "same" is left with is shared so that each answer fits equally many.
  const story: Node = {
    name: 'story',
    states: ['0', '1', '2', '3', '4', '5'],
    parents: [],
    table: () => Array.from({ length: 6 }, () => 1 / 6),
  };
  const fits: Readonly<Record<string, readonly number[]>> = {
    q0: [0, 1, 1, 1, 0, 0],
    q1: [0, 0, 1, 1, 2, 2],
  };
  const follows = rules.numbers['one-story'].recall;
  const questions = rules.questions.map((q): Node => {
    const own = [...new Set(q.links.map(([c]) => c))];
    return {
      name: q.id,
      states: q.answers.map((a) => a.id),
      parents: [
        ...own.map((c) => rules.causes[c]!.id),
        `trust ${q.group}`,
        ...(q.id in fits ? ['story'] : []),
      ],
      table: (state) => {
        if (state[`trust ${q.group}`] === 'no') {
          const m = q.answers.length;
          const told = fits[q.id]?.[Number(state['story'])];
          return q.answers.map((_, a) =>
            told === undefined ? 1 / m : (1 - follows) / m + (a === told ? follows : 0),
          );
        }
        const off = own.filter((c) => state[rules.causes[c]!.id] === 'yes');
        return [...answerProbabilities(q, off, new Float64Array(q.answers.length))];
      },
    };
  });
  return [...causes, ...trust, story, ...questions];
}

describe('the engine against the general-purpose library on the same network', () => {
  const rules = network({
    priors: [0.12, 0.08, 0.2, 0.05],
    questions: [
      yesNo('q0', 0.07, { 0: 0.75, 1: 0.25 }, 'row'),
      {
        id: 'q1',
        answers: ['same', 'worse', 'better'],
        base: [0, 0.07, 0.05],
        links: [
          [0, 1, 0.725],
          [2, 2, 0.6],
          [1, 2, 0.25],
        ],
        group: 'row',
      },
      {
        id: 'q2',
        answers: ['none', 'front', 'rear', 'both'],
        base: [0, 0.1, 0.1, 0],
        links: [
          [0, 1, 0.8],
          [3, 2, 0.7],
        ],
        several: 3,
        group: 'end',
      },
      yesNo('q3', 0.03, { 2: 0.5, 3: 0.4 }, 'chatter'),
    ],
  });
  it.each([0, 0.1])('posteriors agree with a trust variable a topic, doubt %f', (doubt) => {
    const model = buildModel(rules, doubt);
    const belief = update(model, priorOf(model), [
      { question: 0, answer: 1, sure: 1 },
      { question: 1, answer: 2, sure: 1 },
      { question: 2, answer: 3, sure: 1 },
      { question: 3, answer: 1, sure: 1 },
    ]);
    const net = asNet(rules, doubt);
    rules.causes.forEach((c, i) => {
      expect(belief.causes[i]).toBeCloseTo(
        byLibrary(net, c.id, { q0: 'yes', q1: 'better', q2: 'both', q3: 'yes' }),
        10,
      );
    });
  });
});
