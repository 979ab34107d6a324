import { describe, expect, it } from 'vitest';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import type { Case, CaseAnswer, Round } from '../../src/casework/case.ts';
import { consult } from '../../src/casework/consult.ts';
import { toldOnce } from '../../src/casework/retold.ts';
import { buildModel } from '../../src/diagnosis/model.ts';
import { baseRules } from '../support/base-rules.ts';

const say = (question: string, answer: string): CaseAnswer => ({ question, answer, sure: 'sure' });
const bouncy = say('push-return@rear', 'springs');
const complaint = say('complaint', 'air');
const round = (answers: readonly CaseAnswer[], kept: boolean): Round => ({
  answers,
  results: [{ change: 'rear.rebound.low-2', outcome: 'worse', kept }],
});
const kase = (earlier: readonly Round[], answers: readonly CaseAnswer[]): Case => ({
  id: 'x',
  answers,
  results: [],
  earlier,
});
const ids = (answers: readonly CaseAnswer[]): string[] => answers.map(({ question }) => question);

describe('what a second round says again', () => {
  it('counts once while the bike was put back', () => {
    expect(ids(toldOnce(kase([round([bouncy, complaint], false)], [bouncy]), 0))).toEqual(['complaint']);
  });
  it('counts again where the change stayed on the bike', () => {
    expect(toldOnce(kase([round([bouncy, complaint], true)], [bouncy]), 0)).toHaveLength(2);
  });
  it('counts again where something else was changed and is still on', () => {
    const tried = [{ setting: 'rear.spring', direction: 'firmer', result: 'same', putBack: 'no' }] as const;
    expect(toldOnce({ ...kase([round([bouncy], false)], [bouncy]), tried }, 0)).toHaveLength(1);
  });
  it('"can\'t tell" takes nothing back', () => {
    const later = [say('push-return@rear', 'cannot-tell')];
    expect(toldOnce(kase([round([bouncy], false)], later), 0)).toHaveLength(1);
  });
  it('of three rounds only the last counts, up to what was kept between them', () => {
    const rounds = [round([bouncy], false), round([bouncy], true), round([bouncy], false)];
    const three = kase(rounds, [bouncy]);
    expect([0, 1, 2].map((i) => toldOnce(three, i).length)).toEqual([0, 1, 0]);
  });
});

it('a failed trial lowers what it was ridden for, however often the same is told again', () => {
  const model = buildModel(baseRules().rules);
  const bench = prepareBike(model);
  const fast = model.causeIndex.get('rear.rebound.low.too-fast')!;
  const answers = [complaint, say('trouble-end', 'rear'), bouncy];
  const belief = (earlier: readonly Round[]): number =>
    consult(model, bench, kase(earlier, answers), { next: false, explain: 0, fit: false }).belief.causes[
      fast
    ]!;
  const before = belief([]);
  const once = belief([round(answers, false)]);
  const twice = belief([round(answers, false), round(answers, false)]);
  expect(once).toBeLessThan(before);
  expect(twice).toBeLessThan(once);
});
