import { expect, it } from 'vitest';
import type { CaseAnswer } from '../../../src/casework/case.ts';
import { meantOf, openReadings } from '../../../src/casework/said/open-readings.ts';
import { buildModel } from '../../../src/diagnosis/model.ts';
import { buildMatcher } from '../../../src/words/matcher.ts';
import { rulesOf } from '../../support/compile-text.ts';
import { SMALL } from '../../support/small-rules.ts';

const rules = rulesOf({
  'a.yaml': SMALL,
  'b.yaml': `
words:
  - {id: packs, says: [packs down], could-be: [{question: "row.trend@{end}", answer: worse}], source: common-practice}
  - {id: harsh, says: [harsh], ambiguous: true, means: [a, b], separates: [pattern, row.trend@front], source: common-practice}
  - {id: odd, says: [odd], ambiguous: true, means: [a, b], separates: [pattern, row.trend@front], could-be: [{question: pattern, answer: row}, {question: "row.trend@{end}", answer: worse}], source: common-practice}
`,
});
const model = buildModel(rules);
const { match } = buildMatcher(rules);
const open = (said: string, answers: Readonly<Record<string, string>>) =>
  openReadings(
    model,
    { answers: Object.entries(answers).map(([question, answer]) => ({ question, answer, sure: 'sure' })) },
    match(said),
  ).map((r) => [...r.candidates.map((c) => c.question), ...r.separates]);

it('keeps what was said until it is answered, whatever the answer', () => {
  expect(open('it packs down', {})).toEqual([['row.trend@either']]);
  expect(open('it packs down', { pattern: 'row', 'row.trend@front': 'cannot-tell' })).toEqual([]);
  expect(open('it packs down', { 'row.trend@front': 'same', 'row.trend@rear': 'worse' })).toEqual([]);
});

it('drops what does not apply after another answer', () => {
  expect(open('it packs down', { pattern: 'one' })).toEqual([]);
});

it('keeps words of two meanings until a question that tells them apart is answered', () => {
  expect(open('it is harsh', {})).toEqual([['pattern', 'row.trend@front']]);
  expect(open('it is harsh', { pattern: 'row' })).toEqual([]);
  expect(open('it is harsh', { pattern: 'one' })).toEqual([]);
});

it('drops what the rider said he did not mean, unless he answered so since', () => {
  const declined = { about: [], keepAsking: false, notMeant: { 'row.trend@either': ['worse'] } };
  const meant = (interview: typeof declined | undefined, answers: readonly CaseAnswer[] = []) =>
    meantOf({ answers, ...(interview === undefined ? {} : { interview }) }, match('it packs down'));
  expect(meant(undefined)).toHaveLength(1);
  expect(meant(declined)).toEqual([]);
  expect(meant({ ...declined, notMeant: { 'row.trend@either': ['same'] } })).toHaveLength(1);
  expect(meant(declined, [{ question: 'row.trend@either', answer: 'worse', sure: 'sure' }])).toHaveLength(1);
  // Nobody was asked what words of two meanings mean.
  expect(meantOf({ answers: [], interview: declined }, match('it is harsh'))).toHaveLength(1);
});

it('drops words of several meanings once every sign of theirs was declined and a question of theirs answered', () => {
  const left = (notMeant: Readonly<Record<string, string[]>>, answers: readonly CaseAnswer[] = []): number =>
    meantOf({ answers, interview: { about: [], keepAsking: false, notMeant } }, match('it is odd')).length;
  const one: CaseAnswer[] = [{ question: 'pattern', answer: 'one', sure: 'sure' }];
  const all = { 'row.trend@either': ['worse'], pattern: ['row'] };
  expect(left(all)).toBe(1);
  expect(left({ 'row.trend@either': ['worse'] }, one)).toBe(1);
  expect(left(all, one)).toBe(0);
});
