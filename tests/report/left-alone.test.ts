/** What is said where nothing is off, and where a cause is likely and yet no step for it is advised. */
import { describe, expect, it } from 'vitest';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import { consult } from '../../src/casework/consult.ts';
import { toResult } from '../../src/report/result/to-result.ts';
import type { Result } from '../../src/report/result/result.ts';
import { textReport } from '../../src/report/text.ts';
import { whyLines } from '../../src/report/verdict/step-lines.ts';
import { PLAIN } from '../../src/report/style.ts';
import { exampleSheet } from '../bike/example.ts';
import { bench, caseOf, model, rules, SOUND } from '../support/told.ts';

const resultOf = (answers: Readonly<Record<string, string>>): Result => {
  const kase = caseOf({ ...SOUND, ...answers });
  return toResult(model, kase, consult(model, bench, kase, { next: true, explain: 5, fit: true }));
};
const flat = (text: string): string => text.replaceAll(/\s+/g, ' ');

/** Looked over and asked about, and only two small things noticed. */
const CLEAN = {
  'trouble-end': 'front',
  'liveliness@front': 'right',
  'landing@front': 'soaked',
  'recent-change': 'none',
  onset: 'sudden',
  'travel-part@front': 'all',
  'liveliness@rear': 'right',
  'grip@front': 'enough',
  'brake-feel': 'fine',
  'hit-pattern': 'neither',
  'tyre-target@front': 'target',
  'headset-check': 'free',
  'cockpit-build': 'usual',
  balance: 'level',
  'one-spot': 'spot',
};

it('a sound bike is left as it is, with what would be a sign that it is not', () => {
  const result = resultOf(CLEAN);
  expect(result.verdict).toBe('leave');
  const text = flat(textReport(result, { rules }));
  expect(text).toContain('Leave it alone');
  expect(text).toContain(flat(rules.leftAlone!));
  expect(text).not.toContain('Not sure');
});

it('a rider who came with a complaint of his own words is not told to leave it alone', () => {
  const kase = caseOf({ ...SOUND, ...CLEAN });
  const verdictOf = (one: Parameters<typeof consult>[2]) =>
    consult(model, bench, one, { next: true, explain: 0, fit: false }).advice.verdict;
  expect([verdictOf(kase), verdictOf({ ...kase, said: 'it kicks my feet' })]).toEqual(['leave', 'unknown']);
});

it('what a loose part stops says where to look at the end that was told', () => {
  const text = (answers: Readonly<Record<string, string>>): string =>
    resultOf({ ...answers, 'safety.found': 'loose' }).cautions.find(({ id }) => id === 'stop-loose')!.text;
  expect(text({ 'trouble-end': 'rear' })).toMatch(/each pivot/);
  expect(text({ 'trouble-end': 'rear' })).not.toMatch(/headset/);
  expect(text({ 'trouble-end': 'front' })).not.toMatch(/pivot/);
  expect(text({})).toMatch(/at the front .* at the rear/);
});

it('a likely cause beside a check that comes first is named, and not called unlikely', () => {
  const result = resultOf({ 'sag@rear': 'less', 'bottoming@rear': 'hard' });
  const likely = result.causes[0]!;
  const check = { ...result, because: 'measure-first', insteadOf: null } as const;
  const words = { style: PLAIN, rules, audience: 'mechanic' } as const;
  const why = flat(whyLines(check, result.adjustments[0]!, words).join(' '));
  expect(likely.probability).toBeGreaterThan(0.5);
  expect(why).toContain(`likeliest so far is ${likely.name}`);
  const open = { ...check, causes: [{ ...likely, probability: 0.3 }] };
  expect(flat(whyLines(open, result.adjustments[0]!, words).join(' '))).toContain(
    'no cause is likely enough yet',
  );
});

describe('a number that a gauge read off its target', () => {
  const off = (now: number): Result => {
    const sheet = exampleSheet('all-knobs');
    const { front } = sheet.ends;
    const on = prepareBike(model, {
      ...sheet,
      ends: { ...sheet.ends, front: { ...front, sagMeasured: now } },
    });
    const kase = caseOf({ ...SOUND, complaint: 'nothing' });
    return toResult(model, kase, consult(model, on, kase, { next: true, explain: 5, fit: true }));
  };
  it('stands beside a verdict that leaves the bike, which is then not called right', () => {
    const result = off(0.28);
    expect(result.verdict).toBe('leave');
    expect(result.offTarget).toEqual([{ question: 'bike.front.spring', answer: '+8' }]);
    const text = flat(textReport(result, { rules }));
    expect(text).toContain('Nothing that was felt speaks for a change');
    expect(text).toContain('front spring: sag 8 points over the target');
    expect(text).toContain(flat(rules.offTarget!));
    expect(text).not.toContain('Nothing on the bike looks off');
  });
  it('is none within what a reading may be off', () => {
    const result = off(0.21);
    expect(result.offTarget).toEqual([]);
    expect(flat(textReport(result, { rules }))).toContain('Nothing on the bike looks off');
  });
  it('is one that was answered as well', () => {
    const result = resultOf({ complaint: 'nothing', 'sag@rear': 'more' });
    expect(result.offTarget).toEqual([{ question: 'sag@rear', answer: 'more' }]);
  });
});

it('the help of the tyre question tells what its gauge takes for on target', () => {
  for (const { gauge, help } of rules.questions.filter((q) => /^tyre-target@(front|rear)/.test(q.id))) {
    const told = gauge!.against.map(({ of, within }) =>
      'part' in within ? [of, `${within.part * 100} %`] : [of, `${Math.round(within.amount / 6894.757)} psi`],
    );
    expect(told).toEqual([
      ['sheet', '2 psi'],
      ['weight', '25 %'],
    ]);
    expect(help).toMatch(/2 psi .* of your own figure .* 25 % of a figure .* usual for a weight/);
  }
});
