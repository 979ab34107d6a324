import { readDeed } from '../../src/bike/deed.ts';
import { describe, expect, it } from 'vitest';
import type { Case, CaseAnswer, Round } from '../../src/casework/case.ts';
import { consult } from '../../src/casework/consult.ts';
import { heardOnce, riddenAsItStands, roundsOfCase } from '../../src/casework/retold.ts';
import { bareBike, baseModel } from '../support/base-rules.ts';

const say = (question: string, answer: string): CaseAnswer => ({ question, answer, sure: 'sure' });
const bouncy = say('push-return@rear', 'springs');
const complaint = say('complaint', 'air');
const round = (answers: readonly CaseAnswer[], kept: boolean): Round => ({
  answers,
  results: [{ change: readDeed('rear.rebound.low-2'), outcome: 'worse', kept }],
});
const kase = (earlier: readonly Round[], answers: readonly CaseAnswer[]): Case => ({
  id: 'x',
  answers,
  results: [],
  earlier,
});
const STILL_ON = { setting: 'rear.spring', direction: 'firmer', result: 'same', putBack: 'no' } as const;
const model = baseModel();
const bench = bareBike();
/** Of each round the questions whose answers count. */
const counted = (one: Case): string[][] =>
  heardOnce(model, bench.fact, roundsOfCase(one)).map((evidence) =>
    evidence.map(({ question }) => model.rules.questions[question]!.id),
  );

describe('what a second round says again', () => {
  it('counts once while the bike was put back', () => {
    expect(counted(kase([round([bouncy, complaint], false)], [bouncy]))[0]).toEqual(['complaint']);
  });
  it('counts again where the change stayed on the bike', () => {
    expect(counted(kase([round([bouncy, complaint], true)], [bouncy]))[0]).toHaveLength(2);
  });
  it('counts again where something else was changed and is still on', () => {
    const one = { ...kase([round([bouncy], false)], [bouncy]), tried: [STILL_ON] };
    expect(counted(one)[0]).toHaveLength(1);
    expect(riddenAsItStands(roundsOfCase(one))).toEqual([]);
    expect(riddenAsItStands(roundsOfCase({ ...one, tried: [] }))).toHaveLength(1);
  });
  it('counts again where something was changed without a trial', () => {
    const one: Case = { ...kase([round([bouncy], false)], [bouncy]), changed: true };
    expect(counted(one)[0]).toHaveLength(1);
    expect(riddenAsItStands(roundsOfCase(one))).toEqual([]);
  });
  it('"can\'t tell" takes nothing back', () => {
    const later = [say('push-return@rear', 'cannot-tell')];
    expect(counted(kase([round([bouncy], false)], later))[0]).toHaveLength(1);
  });
  it('of three rounds only the last counts, up to what was kept between them', () => {
    const rounds = [round([bouncy], false), round([bouncy], true), round([bouncy], false)];
    expect(counted(kase(rounds, [bouncy])).map((r) => r.length)).toEqual([0, 1, 0, 1]);
  });
  it('may say it of an end that it did not know before, or no longer', () => {
    const somewhere = say('push-return@either', 'springs');
    expect(counted(kase([round([somewhere], false)], [bouncy]))[0]).toEqual([]);
    expect(counted(kase([round([bouncy], false)], [somewhere]))[0]).toEqual([]);
  });
  it('is heard with all that was said in the same breath', () => {
    // The first answer says that the second does not apply; that one alone is told again changes nothing of it.
    const said = [say('hit-pattern', 'one'), say('repeated-hits.trend@front', 'worse')];
    expect(counted(kase([round(said, false)], [say('hit-pattern', 'row')]))[0]).toEqual([]);
  });
});

it('a failed trial lowers what it was ridden for, however often the same is told again', () => {
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
