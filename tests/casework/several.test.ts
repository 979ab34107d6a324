/** Several answers to one question, from the case file to the belief and through an interview. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { vocabularyOf, type Case } from '../../src/casework/case.ts';
import { consult } from '../../src/casework/consult.ts';
import { hear } from '../../src/casework/evidence.ts';
import { readCase } from '../../src/casework/reading/read-case.ts';
import { membersOf } from '../../src/diagnosis/hypotheses.ts';
import { logOdds } from '../../src/diagnosis/log-odds.ts';
import { answerProbabilities } from '../../src/diagnosis/answer-model.ts';
import type { Event } from '../../src/interview/events.ts';
import { begin, step } from '../../src/interview/session.ts';
import { toCaseFile, type Interview } from '../../src/interview/state.ts';
import { bareBike, baseModel, baseRules } from '../support/base-rules.ts';

const { rules } = baseRules();
const model = baseModel();
const bench = bareBike();
const vocabulary = vocabularyOf(rules);
const read = (answers: Record<string, unknown>) => readCase({ case: 1, id: 'x', answers }, vocabulary, 'x');
const caseOf = (answers: Record<string, unknown>): Case => {
  const { value, problems } = read(answers);
  if (value === undefined) throw new Error(problems.map((p) => p.message).join(' '));
  return value;
};
const believe = (answers: Record<string, unknown>) =>
  consult(model, bench, caseOf(answers), { next: false, explain: 0, fit: false }).belief;
const lists = rules.questions.filter((q) => q.list === true && q.either === undefined);
const signsOf = (q: (typeof lists)[number]): string[] =>
  q.answers.filter((_, a) => a !== q.default).map((a) => a.id);

/** A question that takes several, two of its signs, and what else was said. */
const told = fc
  .constantFrom(...lists)
  .chain((q) => fc.tuple(fc.constant(q.id), fc.shuffledSubarray(signsOf(q), { minLength: 2, maxLength: 2 })));

describe('several answers to one question', () => {
  it('are taken by more than one question of the rules', () => {
    expect(lists.length).toBeGreaterThan(5);
  });

  it('count alike in any order, and one of them said twice counts once', () => {
    expect(caseOf({ hands: ['numb', 'palms', 'numb'] })).toEqual(caseOf({ hands: ['palms', 'numb'] }));
    fc.assert(
      fc.property(told, ([id, signs]) => {
        const one = believe({ complaint: 'arms', [id]: signs });
        const other = believe({ [id]: [...signs.toReversed(), signs[0]], complaint: 'arms' });
        expect([...other.causes]).toEqual([...one.causes]);
      }),
      { numRuns: 10 },
    );
  });

  it('as a list of one are the plain answer', () => {
    expect(caseOf({ hands: ['numb'] })).toEqual(caseOf({ hands: 'numb' }));
    fc.assert(
      fc.property(told, fc.constantFrom('sure', 'guess'), ([id, [sign]], sure) => {
        expect(caseOf({ [id]: [sign] })).toEqual(caseOf({ [id]: sign }));
        expect(caseOf({ [id]: { answer: [sign], sure } })).toEqual(caseOf({ [id]: { answer: sign, sure } }));
      }),
      { numRuns: 8 },
    );
  });

  it('never count as two that are independent', () => {
    expect(rules.numbers['further-answer']).toBeLessThan(1);
    const prior = believe({});
    const moved = (to: typeof prior, c: number): number => logOdds(to.causes[c]!) - logOdds(prior.causes[c]!);
    const alone = (id: string, sign: string): number[] => {
      const to = believe({ [id]: sign });
      return rules.causes.map((_, c) => moved(to, c));
    };
    for (const q of lists) {
      const signs = signsOf(q).map((sign) => [sign, alone(q.id, sign)] as const);
      for (const [i, [a, ofA]] of signs.entries())
        for (const [b, ofB] of signs.slice(i + 1)) {
          const both = believe({ [q.id]: [a, b] });
          rules.causes.forEach(({ id }, c) => {
            // Only where both speak for the cause: against it, each also speaks for what the other does not know. What both
            // take from a bike on which nothing is off goes to every cause: a quarter of a decibel at most.
            if (ofA[c]! > 0 && ofB[c]! > 0)
              expect(moved(both, c), `${q.id}: ${a}, ${b} of ${id}`).toBeLessThan(ofA[c]! + ofB[c]! + 0.06);
          });
        }
    }
  });

  it('are worth (1 + further) of one, by hand over all sets', () => {
    const id = 'hands';
    const question = rules.questions[model.questionIndex.get(id)!]!;
    const share = (1 + rules.numbers['further-answer']) / 2;
    const [d, slip] = [rules.numbers.trust.recall, rules.numbers.slip.recall];
    const m = question.answers.length;
    const at = (sign: string): number => question.answers.findIndex((a) => a.id === sign);
    let all = 0;
    const causes = rules.causes.map(() => 0);
    bench.prior.forEach((w, set) => {
      const off = membersOf(model.space, set);
      const chances = answerProbabilities(question, off, new Float64Array(m));
      const said = (sign: string): number => ((1 - slip) * chances[at(sign)]! + slip / m) ** share;
      const p = w * ((1 - d) * said('fingers') * said('numb') + d * (1 / m) ** (2 * share));
      all += p;
      for (const c of off) causes[c]! += p;
    });
    const belief = believe({ [id]: ['numb', 'fingers'] });
    causes.forEach((p, c) => expect(belief.causes[c]).toBeCloseTo(p / all, 10));
  });

  it('open a gate when any of them does', () => {
    const gated = rules.questions.find((q) => q.gates.some((g) => g.on === 'question'))!;
    const gate = gated.gates.find((g) => g.on === 'question')!;
    const own = rules.questions[model.questionIndex.get(gate.id)!]!;
    const other = own.answers.find((a) => !gate.values.includes(a.id))!.id;
    const sign = gated.answers[gated.default === 0 ? 1 : 0]!.id;
    const { contradictions } = hear(
      model,
      [
        { question: own.id, answer: other, also: [gate.values[0]!], sure: 'sure' },
        { question: gated.id, answer: sign, sure: 'sure' },
      ],
      bench.fact,
    );
    expect(contradictions).toEqual([]);
  });

  it('may be of an end that nobody knows', () => {
    const { causes } = believe({ 'landing@either': ['sideways', 'bounced'] });
    const p = (id: string): number => causes[model.causeIndex.get(id)!]!;
    expect(p('front.rebound.high.too-fast')).toBeGreaterThan(
      believe({}).causes[model.causeIndex.get('front.rebound.high.too-fast')!]!,
    );
    expect(p('front.wheel.loose')).toBeCloseTo(p('rear.wheel.loose'), 1);
  });

  it.each([
    [{ hands: [] }, 'answers › hands: found a list, expected 1 or more entries.'],
    [{ hands: ['fingers', 'nothing'] }, 'hands: nothing cannot go with other answers.'],
    [{ hands: ['fingers', 'cannot-tell'] }, 'hands: cannot-tell cannot go with other answers.'],
    [{ hands: ['fingers', 'toes'] }, 'hands has no answer toes.'],
    [{ hands: ['fingers', 3] }, 'answers › hands › entry 2: found 3, expected a text.'],
    [{ complaint: ['hits', 'rows'] }, 'complaint takes one answer, found 2.'],
  ])('are refused with one clear line: %j', (answers, message) => {
    const { value, problems } = read({ ...answers, 'safety.found': 'none' });
    expect(value).toBeUndefined();
    expect(problems.map((p) => p.message)).toEqual([message]);
  });
});

describe('several answers in an interview', () => {
  const play = (events: readonly Event[], from: Interview): Interview =>
    events.reduce((state, event) => step(model, bench, state, event)[0], from);
  const [begun] = begin(model, bench, { id: 'x' });
  const at = (question: string): Interview => ({ ...begun, current: question });

  it('are one step, and one step back', () => {
    const held = play([{ type: 'answer', answer: 'numb', also: ['fingers'] }], at('hands'));
    expect(held.steps).toEqual([{ question: 'hands', answer: 'fingers', also: ['numb'], sure: 'sure' }]);
    expect(play([{ type: 'back' }], held).steps).toEqual([]);
  });

  it('are changed as a whole, and read back from the file that was kept', () => {
    const held = play(
      [
        { type: 'answer', answer: 'numb', also: ['fingers'] },
        { type: 'change', question: 'hands', answer: 'palms', also: ['all'] },
      ],
      at('hands'),
    );
    const file = toCaseFile(held);
    expect(file['answers']).toEqual({ hands: ['palms', 'all'] });
    expect(begin(model, bench, readCase(file, vocabulary, 'x').value!)[0].steps).toEqual(held.steps);
    const single = play([{ type: 'change', question: 'hands', answer: 'palms' }], held);
    expect(toCaseFile(single)['answers']).toEqual({ hands: 'palms' });
  });

  it('come together from two readings of what was said; elsewhere the later one stands', () => {
    const confirm = (question: string, ...signs: string[]): Interview =>
      play(
        [
          {
            type: 'confirm',
            answers: signs.map((answer) => ({ question, answer, sure: 'sure' as const })),
          },
        ],
        begun,
      );
    expect(confirm('hands', 'palms', 'fingers').steps[0]).toMatchObject({
      answer: 'fingers',
      also: ['palms'],
    });
    expect(confirm('complaint', 'rows', 'hits').steps[0]).toEqual({
      question: 'complaint',
      answer: 'hits',
      sure: 'sure',
    });
  });
});
