import { describe, expect, it } from 'vitest';
import type { CaseAnswer } from '../../src/casework/case.ts';
import { hear } from '../../src/casework/evidence.ts';
import { goesWithoutSaying, isOpen } from '../../src/diagnosis/gates.ts';
import { buildModel } from '../../src/diagnosis/model.ts';
import { answersOf } from '../support/told.ts';
import { baseModel } from '../support/base-rules.ts';
import { rulesOf } from '../support/compile-text.ts';
import { model } from '../support/front-rules.ts';
import { SMALL } from '../support/small-rules.ts';

const indexOf = (id: string): number => model.questionIndex.get(id)!;
const heard = (...answers: [string, string, CaseAnswer['sure']?][]) =>
  hear(
    model,
    answers.map(([question, answer, sure = 'sure']) => ({ question, answer, sure })),
    () => undefined,
  );

describe('answers as evidence', () => {
  it('count by index, with how sure the rider was as the pack has it', () => {
    expect(heard(['loose', 'no'], ['packs', 'yes', 'guess']).evidence).toEqual([
      { question: indexOf('loose'), answer: 0, sure: 1 },
      { question: indexOf('packs'), answer: 1, sure: model.rules.numbers.sure.guess },
    ]);
  });

  it('are none where the rider cannot tell or puts it off; the two are kept apart', () => {
    const told = heard(['packs', 'cannot-tell'], ['loose', 'not-now']);
    expect(told.evidence).toEqual([]);
    expect(told.cannotTell).toEqual([indexOf('packs')]);
    expect(told.putOff).toEqual([indexOf('loose')]);
    expect(told.known.answers.size).toBe(0);
  });

  it('are set aside where another answer says that the question did not apply', () => {
    const told = heard(['packs-deep', 'yes'], ['packs', 'no']);
    expect(told.evidence.map((e) => e.question)).toEqual([indexOf('packs')]);
    expect(told.contradictions).toEqual([{ question: 'packs-deep', against: 'packs', value: 'no' }]);
    expect(heard(['packs-deep', 'yes'], ['packs', 'cannot-tell']).evidence).toHaveLength(1);
  });

  it('of a dangerous kind name their caution, once, and count', () => {
    const told = heard(['loose', 'yes']);
    expect(told.dangers).toEqual([{ question: 'loose', answer: 'yes', caution: 'loose' }]);
    expect(told.evidence).toHaveLength(1);
    expect(heard(['loose', 'no']).dangers).toEqual([]);
  });
});

describe('answers without an end', () => {
  const small = buildModel(rulesOf({ 'a.yaml': SMALL }));
  const at = (id: string): number => small.questionIndex.get(id)!;
  const told = (...answers: [string, string][]) =>
    hear(
      small,
      answers.map(([question, answer]) => ({ question, answer, sure: 'sure' as const })),
      () => undefined,
    );
  const row: [string, string] = ['pattern', 'row'];
  const either: [string, string] = ['row.trend@either', 'worse'];

  it('count for either end while nothing says which', () => {
    expect(told(row, either).evidence.map((e) => e.question)).toEqual([
      at('pattern'),
      at('row.trend@either'),
    ]);
  });
  it('count once where the same was said of an end', () => {
    expect(told(row, either, ['row.trend@rear', 'worse']).evidence.map((e) => e.question)).toEqual([
      at('pattern'),
      at('row.trend@rear'),
    ]);
  });
  it('are of the other end where one end answered otherwise, in whatever order they stand', () => {
    const orders = [
      [row, either, ['row.trend@rear', 'same']],
      [['row.trend@rear', 'same'], row, either],
    ] as [string, string][][];
    for (const order of orders) {
      expect(new Set(told(...order).evidence.map((e) => e.question))).toEqual(
        new Set([at('pattern'), at('row.trend@rear'), at('row.trend@front')]),
      );
    }
  });
  it('are set aside where both ends answered otherwise, or where the question does not apply', () => {
    expect(told(row, either, ['row.trend@rear', 'same'], ['row.trend@front', 'same']).contradictions).toEqual(
      [{ question: 'row.trend@either', against: 'row.trend@rear', value: 'same' }],
    );
    expect(told(['pattern', 'one'], either).contradictions).toEqual([
      { question: 'row.trend@either', against: 'pattern', value: 'one' },
    ]);
  });
});

describe('what goes without saying', () => {
  const told = rulesOf({
    'a.yaml': SMALL.replace(
      'usually: {one: rarely, row: rarely}',
      'implies: {one: {"row.trend@front": same}}\n    usually: {one: rarely, row: rarely}',
    ),
  });
  const implying = buildModel(told);
  const hearing = (...answers: [string, string][]) =>
    hear(
      implying,
      answers.map(([question, answer]) => ({ question, answer, sure: 'sure' as const })),
      () => undefined,
    );
  const front = implying.rules.questions.find((q) => q.id === 'row.trend@front')!;
  const rear = implying.rules.questions.find((q) => q.id === 'row.trend@rear')!;

  it('is no evidence, opens gates and is not asked', () => {
    const { evidence, known } = hearing(['pattern', 'one']);
    expect(evidence).toHaveLength(1);
    expect(known.implied).toEqual(new Map([['row.trend@front', 'same']]));
    expect(goesWithoutSaying(front, known)).toBe(true);
    expect(goesWithoutSaying(rear, known)).toBe(false);
    const gated = { ...rear, gates: [{ on: 'question' as const, id: 'row.trend@front', values: ['same'] }] };
    expect(isOpen(gated, known)).toBe(true);
    expect(isOpen({ ...gated, gates: [{ ...gated.gates[0]!, values: ['worse'] }] }, known)).toBe(false);
  });
  it('gives way to what was said', () => {
    const { known, contradictions } = hearing(['pattern', 'one'], ['row.trend@front', 'worse']);
    expect(goesWithoutSaying(front, known)).toBe(false);
    expect(contradictions.map((c) => c.against)).toEqual(['pattern']);
  });
  it('is nothing after "can\'t tell"', () => {
    expect(hearing(['pattern', 'cannot-tell']).known.implied).toBeUndefined();
  });
  describe('where the end was told by itself', () => {
    const base = baseModel();
    const where = (id: string): number => base.questionIndex.get(id)!;
    const found = (said: Readonly<Record<string, string>>): number[] =>
      hear(base, answersOf({ 'hit-pattern': 'row', ...said }), () => undefined).evidence.map(
        (e) => e.question,
      );
    const harsher = { 'repeated-hits.trend@either': 'worse' };
    it.each([
      ['front', 'repeated-hits.trend@front'],
      ['rear', 'repeated-hits.trend@rear'],
    ])('are of that end: %s, in whatever order they stand', (end, question) => {
      for (const said of [
        { 'trouble-end': end, ...harsher },
        { ...harsher, 'trouble-end': end },
      ]) {
        expect(found(said)).toContain(where(question));
        expect(found(said)).not.toContain(where('repeated-hits.trend@either'));
      }
    });
    it('stay of either where both ends were named, or something was felt at the other end', () => {
      for (const said of [
        { 'trouble-end': 'both' },
        { 'trouble-end': 'neither' },
        { 'trouble-end': 'front', 'liveliness@rear': 'nervous' },
      ])
        expect(found({ ...said, ...harsher })).toContain(where('repeated-hits.trend@either'));
      // What was looked at on the stand, or was as usual, is no complaint of the other end.
      expect(found({ 'trouble-end': 'front', 'liveliness@rear': 'right', ...harsher })).toContain(
        where('repeated-hits.trend@front'),
      );
    });
  });
});
