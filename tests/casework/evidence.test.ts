import { describe, expect, it } from 'vitest';
import type { CaseAnswer } from '../../src/casework/case.ts';
import { hear } from '../../src/casework/evidence.ts';
import { model } from '../support/front-rules.ts';

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
    expect(told.dangers).toEqual(['loose']);
    expect(told.evidence).toHaveLength(1);
    expect(heard(['loose', 'no']).dangers).toEqual([]);
  });
});
