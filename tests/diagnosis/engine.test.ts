import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { priorOf, update, type Evidence } from '../../src/diagnosis/belief.ts';
import { answerProbabilities } from '../../src/diagnosis/answer-model.ts';
import { gains, rank } from '../../src/diagnosis/inquiry.ts';
import { posteriorOf } from '../../src/diagnosis/fast/class-marginals.ts';
import { findSet } from '../../src/diagnosis/hypotheses.ts';
import { membersOf } from '../../src/diagnosis/hypotheses.ts';
import { plainCauses, plainPosterior } from '../support/plain/posterior.ts';
import { plainGain, plainRanking } from '../support/plain/ranking.ts';
import { buildModel } from '../../src/diagnosis/model.ts';
import { network, yesNo, type PlainNetwork, type PlainQuestion } from '../support/network.ts';
import { oracleAnswer } from '../support/oracle.ts';

/** Random small rule bases: 1–5 causes, some of them opposites, 1–5 questions of 2–4 answers, some sharing a group. */
const networks = fc
  .record({
    n: fc.integer({ min: 1, max: 5 }),
    most: fc.integer({ min: 1, max: 4 }),
    opposites: fc.boolean(),
    questions: fc.array(
      fc.record({ m: fc.integer({ min: 2, max: 4 }), several: fc.nat(3), group: fc.nat(2) }),
      { minLength: 1, maxLength: 5 },
    ),
    seed: fc.infiniteStream(fc.double({ min: 0.02, max: 0.98, noNaN: true })),
    links: fc.infiniteStream(fc.boolean()),
    riders: fc.option(fc.record({ settings: fc.array(fc.nat(4)), beside: fc.integer({ min: 1, max: 3 }) }), {
      nil: undefined,
    }),
  })
  .map(({ n, most, opposites, questions, seed, links, riders }): PlainNetwork => {
    const next = (): number => seed.next().value!;
    return {
      priors: Array.from({ length: n }, () => next() * 0.5),
      settings: Array.from({ length: n }, (_, i) => (opposites && i === 1 ? 0 : i)).map((s, _, all) =>
        [...new Set(all)].indexOf(s),
      ),
      most,
      ...(riders === undefined ? {} : { riders: riders.settings, besideRider: riders.beside }),
      questions: questions.map(({ m, several, group }, q): PlainQuestion => {
        const pairs: [number, number, number][] = [];
        for (let c = 0; c < n; c++)
          for (let a = 1; a < m; a++) if (links.next().value!) pairs.push([c, a, next()]);
        return {
          id: `q${q}`,
          answers: Array.from({ length: m }, (_, a) => `a${a}`),
          base: Array.from({ length: m }, (_, a) => (a === 0 ? 0 : next() * 0.3)),
          links: pairs,
          several: several === 0 ? 'cancel' : several === 1 ? 'any' : Math.min(several - 1, m - 1),
          group: `g${group}`,
        };
      }),
    };
  });

const cases = networks.chain((net) =>
  fc.record({
    net: fc.constant(net),
    doubt: fc.constantFrom(0, 0.05, 0.3),
    answers: fc.tuple(
      ...net.questions.map((q) =>
        fc.record({
          given: fc.boolean(),
          answer: fc.nat(q.answers.length - 1),
          sure: fc.constantFrom(1, 0.75, 0.4),
        }),
      ),
    ),
  }),
);

function evidenceOf(answers: readonly { given: boolean; answer: number; sure: number }[]): Evidence[] {
  return answers.flatMap((a, question) => (a.given ? [{ question, answer: a.answer, sure: a.sure }] : []));
}

describe('the compiled engine', () => {
  it('agrees with the plain posterior on random small rule bases', () => {
    fc.assert(
      fc.property(cases, ({ net, doubt, answers }) => {
        const some = network(net);
        const slip = { recall: doubt / 2, ride: 0, stand: 0 };
        const rules = { ...some, numbers: { ...some.numbers, slip } };
        const model = buildModel(rules, doubt);
        const evidence = evidenceOf(answers);
        const belief = update(model, priorOf(model), evidence);
        const plain = plainPosterior(rules, evidence, doubt);
        expect(belief.nothing).toBeCloseTo(plain.sets[0]!.p, 10);
        plainCauses(rules, plain).forEach((p, i) => expect(belief.causes[i]).toBeCloseTo(p, 10));
        expect(Math.exp(belief.logEvidence)).toBeCloseTo(plain.evidence, 10);
      }),
      { numRuns: 200 },
    );
  });

  it('takes each answer for as likely as the walk over all coins says', () => {
    fc.assert(
      fc.property(networks, fc.array(fc.nat(4), { maxLength: 3 }), (net, off) => {
        const rules = network(net);
        const set = [...new Set(off)].filter((c) => c < rules.causes.length).sort((a, b) => a - b);
        for (const q of rules.questions) {
          const want = oracleAnswer(q, new Set(set));
          const got = answerProbabilities(q, set, new Float64Array(q.answers.length));
          got.forEach((p, a) => expect(p).toBeCloseTo(want[a]!, 10));
        }
      }),
      { numRuns: 120 },
    );
  });

  it('asks in the order of the plain ranking, but for what is equal to the last bits', () => {
    fc.assert(
      fc.property(cases, ({ net, doubt, answers }) => {
        const rules = network(net);
        const model = buildModel(rules, doubt);
        const evidence = evidenceOf(answers);
        const open = rules.questions.map((_, i) => i).filter((i) => !evidence.some((e) => e.question === i));
        const posterior = posteriorOf(model, update(model, priorOf(model), evidence));
        const lastTopic = rules.questions[0]!.topic;
        const found = rank(model, gains(model, posterior, evidence, open), lastTopic);
        const wanted = plainRanking(rules, evidence, open, { lastTopic, doubt });
        const worth = new Map(found.map((g) => [g.question, g.worth]));
        wanted.forEach((question, i) => expect(worth.get(question)).toBeCloseTo(found[i]!.worth, 7));
      }),
      { numRuns: 80 },
    );
  });

  it('gives every open question the information gain of its definition', () => {
    fc.assert(
      fc.property(cases, ({ net, doubt, answers }) => {
        const rules = network(net);
        const model = buildModel(rules, doubt);
        const evidence = evidenceOf(answers);
        const open = rules.questions.map((_, i) => i).filter((i) => !evidence.some((e) => e.question === i));
        const found = gains(
          model,
          posteriorOf(model, update(model, priorOf(model), evidence)),
          evidence,
          open,
        );
        expect(found.map((g) => g.question)).toEqual(open);
        for (const { question, bits } of found)
          expect(bits).toBeCloseTo(plainGain(rules, evidence, question, doubt), 8);
      }),
      { numRuns: 120 },
    );
  });

  it('adds up to one, and each cause to the sets it is in', () => {
    fc.assert(
      fc.property(cases, ({ net, doubt, answers }) => {
        const model = buildModel(network(net), doubt);
        const belief = update(model, priorOf(model), evidenceOf(answers));
        expect(Math.abs(belief.weights.reduce((s, w) => s + w, 0) - 1)).toBeLessThan(1e-12);
        belief.causes.forEach((p, cause) => {
          let sum = 0;
          belief.weights.forEach((w, h) => (sum += membersOf(model.space, h).includes(cause) ? w : 0));
          expect(p).toBeCloseTo(sum, 12);
        });
      }),
      { numRuns: 50 },
    );
  });

  it('sums every set that contains a given one', () => {
    fc.assert(
      fc.property(cases, ({ net, doubt, answers }) => {
        const model = buildModel(network(net), doubt);
        const belief = update(model, priorOf(model), evidenceOf(answers));
        const { containing } = posteriorOf(model, belief);
        const all = belief.weights.map((_, h) => h);
        for (const h of all) {
          const members = membersOf(model.space, h);
          let sum = 0;
          for (const other of all)
            if (members.every((c) => membersOf(model.space, other).includes(c)))
              sum += belief.weights[other]!;
          expect(containing[h]).toBeCloseTo(sum, 12);
          expect(findSet(model.space, members)).toBe(h);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('comes to the same bytes whatever the order of the answers', () => {
    fc.assert(
      fc.property(cases, fc.infiniteStream(fc.nat()), ({ net, doubt, answers }, shuffle) => {
        const model = buildModel(network(net), doubt);
        const evidence = evidenceOf(answers);
        const other = evidence
          .map((e) => [shuffle.next().value!, e] as const)
          .sort((a, b) => a[0] - b[0])
          .map(([, e]) => e);
        expect(update(model, priorOf(model), other).weights).toEqual(
          update(model, priorOf(model), evidence).weights,
        );
      }),
    );
  });

  it('permutes the posterior when the causes are relabelled', () => {
    fc.assert(
      fc.property(cases, ({ net, doubt, answers }) => {
        const n = net.priors.length;
        const to = (c: number): number => n - 1 - c;
        const turned: PlainNetwork = {
          ...net,
          priors: net.priors.map((_, i) => net.priors[to(i)]!),
          settings: net.settings!.map((_, i) => net.settings![to(i)]!),
          questions: net.questions.map((q) => ({
            ...q,
            links: q.links.map(([c, a, s]) => [to(c), a, s] as const),
          })),
        };
        const one = buildModel(network(net), doubt);
        const two = buildModel(network(turned), doubt);
        const a = update(one, priorOf(one), evidenceOf(answers));
        const b = update(two, priorOf(two), evidenceOf(answers));
        a.causes.forEach((p, i) => expect(b.causes[to(i)]).toBeCloseTo(p, 12));
      }),
      { numRuns: 60 },
    );
  });

  it('never lowers a cause when its own prior alone is raised', () => {
    fc.assert(
      fc.property(cases, fc.nat(), ({ net, doubt, answers }, pick) => {
        const cause = pick % net.priors.length;
        const raised = { ...net, priors: net.priors.map((p, i) => (i === cause ? p + 0.3 : p)) };
        const before = buildModel(network(net), doubt);
        const after = buildModel(network(raised), doubt);
        const evidence = evidenceOf(answers);
        expect(update(after, priorOf(after), evidence).causes[cause]! + 1e-12).toBeGreaterThanOrEqual(
          update(before, priorOf(before), evidence).causes[cause]!,
        );
      }),
      { numRuns: 60 },
    );
  });

  it('takes a question that no cause points to as no evidence about any cause', () => {
    const rules = network({
      priors: [0.1, 0.2],
      questions: [{ id: 'q', answers: ['no', 'yes'], base: [0, 0.4], links: [] }],
    });
    const model = buildModel(rules, 0.1);
    const belief = update(model, priorOf(model), [{ question: 0, answer: 1, sure: 1 }]);
    const prior = update(model, priorOf(model), []);
    expect(belief.causes[0]).toBeCloseTo(prior.causes[0]!, 14);
    expect(gains(model, posteriorOf(model, prior), [], [0])[0]!.bits).toBeCloseTo(0, 12);
  });

  it('takes an unsure answer for less than the same answer when sure, also after that one was kept', () => {
    const model = buildModel(network({ priors: [0.2], questions: [yesNo('q', 0.1, { 0: 0.8 })] }), 0);
    const p = (sure: number): number =>
      update(model, priorOf(model), [{ question: 0, answer: 1, sure }]).causes[0]!;
    const slip = model.rules.numbers.slip.recall;
    const slipped = (x: number): number => (1 - slip) * x + slip / 2;
    const by = (yes: number, no: number): number => (0.2 * yes) / (0.2 * yes + 0.8 * no);
    expect(p(1)).toBeCloseTo(by(slipped(0.82), slipped(0.1)), 12);
    expect(p(0.5)).toBeCloseTo(by(0.5 * slipped(0.82) + 0.25, 0.5 * slipped(0.1) + 0.25), 12);
    expect(p(1)).toBeGreaterThan(p(0.5));
  });

  it('asks what is of safety first, then what tells most a minute, sooner where it stays on the topic', () => {
    const net = network({
      priors: [0.2],
      questions: [yesNo('a', 0.1, { 0: 0.5 }), yesNo('b', 0.1, { 0: 0.5 }), yesNo('c', 0.1, { 0: 0.5 })],
    });
    const questions = net.questions.map((q) => (q.id === 'c' ? { ...q, safety: true } : q));
    const model = buildModel({ ...net, questions });
    const bits = [0.5, 0.45, 0.01].map((b, question) => ({ question, bits: b, chances: [] }));
    const order = (lastTopic?: string): number[] => rank(model, bits, lastTopic).map((g) => g.question);
    expect(order()).toEqual([2, 0, 1]);
    expect(order('b')).toEqual([2, 1, 0]);
    const { 'minutes-floor': floor, 'topic-bonus': bonus } = model.rules.numbers.asking;
    expect(rank(model, bits, 'b')[1]!.worth).toBeCloseTo((bonus * 0.45) / (1 + floor), 12);
  });

  it('keeps what a sure answer does apart for every answer, however many a question has', () => {
    const answers = Array.from({ length: 70 }, (_, a) => `a${a}`);
    const question = (id: string, link: [number, number, number]): PlainQuestion => ({
      id,
      answers,
      base: answers.map((_, a) => (a === 0 ? 0 : 0.01)),
      links: [link],
      several: 'cancel',
      group: id,
    });
    const rules = network({
      priors: [0.2, 0.2],
      settings: [0, 1],
      most: 2,
      questions: [question('long', [0, 64, 0.9]), question('next', [1, 1, 0.9])],
    });
    const model = buildModel(rules);
    for (let q = 0; q < 2; q++) {
      for (let a = 0; a < answers.length; a++) {
        const evidence = [{ question: q, answer: a, sure: 1 }];
        const afresh = buildModel(rules);
        expect(update(model, priorOf(model), evidence).causes).toEqual(
          update(afresh, priorOf(afresh), evidence).causes,
        );
      }
    }
  });
});
