/** What is said beside the first step: its own cautions, and none where the bike is left as it is. */
import { describe, expect, it } from 'vitest';
import { consult } from '../../src/casework/consult.ts';
import type { Tried } from '../../src/casework/case.ts';
import type { Result } from '../../src/report/result/result.ts';
import { toResult } from '../../src/report/result/to-result.ts';
import { textReport } from '../../src/report/text.ts';
import { bench, caseOf, model, rules, SOUND } from '../support/told.ts';

function resultOf(answers: Readonly<Record<string, string>>, tried?: Tried): Result {
  const kase = caseOf({ ...SOUND, ...answers }, tried === undefined ? {} : { tried: [tried] });
  return toResult(model, kase, consult(model, bench, kase, { next: true, explain: 5, fit: true }));
}
const serious = (result: Result): string[] =>
  result.cautions.flatMap((c) => (c.level === 'note' ? [] : c.id));

describe('the cautions of the first step', () => {
  it('begin with letting the air out where a spacer goes in', () => {
    const result = resultOf({
      'bottoming@front': 'hard',
      'deep-travel@front': 'last',
      'spacers@front': 'fewer',
      'sag@front': 'target',
      'brake-dive': 'no',
    });
    expect(result.first).toBe('front.ramp-up.add-spacer');
    expect(serious(result)[0]).toBe('air-out-first');
  });
  it('say nothing of air where a knob is put back', () => {
    const result = resultOf(
      { complaint: 'chatter', 'trouble-end': 'front', 'chatter@front': 'through' },
      { setting: 'compression.low', end: 'front', direction: 'close', by: 4, result: 'worse', putBack: 'no' },
    );
    expect(result.because).toBe('put-back');
    expect(serious(result)).not.toContain('air-out-first');
    expect(serious(result)).toContain('adjuster-stops');
  });
  it.each([
    ['tyre', 'more', 'tyre-limits'],
    ['spring', 'softer', 'air-pressure'],
  ] as const)('say nothing of a stop or of clicks where a %s is put back', (setting, direction, own) => {
    const result = resultOf(
      { complaint: 'harsh' },
      { setting, end: 'front', direction, result: 'worse', putBack: 'no' },
    );
    expect(result.because).toBe('put-back');
    expect(serious(result)).toContain(own);
    expect(serious(result)).not.toContain('adjuster-stops');
  });
  it('begin with letting the air out where a spacer goes back, be it not known at which end', () => {
    const result = resultOf(
      { complaint: 'bottoming' },
      { setting: 'ramp-up', direction: 'more', result: 'worse', putBack: 'no' },
    );
    expect(result.because).toBe('put-back');
    expect(serious(result)).toContain('air-out-first');
  });
  it.each([
    ['spacer', true],
    ['setting', false],
  ])('of a last change in %s that is put back: air %s', (change, air) => {
    const result = resultOf({ 'recent-change': change, 'change-effect': 'worse', onset: 'sudden' });
    expect(result.first).toBe('last-change.put-back');
    expect(serious(result).includes('air-out-first')).toBe(air);
  });
});

describe('a rider who never had a service', () => {
  it.each(['setting', 'spacer', 'tyre'])('hears nothing of one after a change of %s', (change) => {
    const result = resultOf({ complaint: 'strange', 'recent-change': change, onset: 'sudden' });
    expect(result.verdict).toBe('change');
    expect(result.insteadOf?.id).not.toBe('service.put-back');
    expect(textReport(result, { rules })).not.toMatch(/before the service/);
  });
});

it('tells a rider whose crash turned the stem to set it straight, with what to tighten', () => {
  const result = resultOf({ 'recent-change': 'crash', 'crash-check': 'turned', 'crack-look': 'none' });
  const [first] = result.adjustments;
  expect(first).toMatchObject({
    id: 'controls.fit',
    do: expect.stringMatching(/stem is straight/) as string,
    plain: expect.stringMatching(/A stem that a fall has turned is set straight/) as string,
  });
  expect(serious(result)).toContain('cockpit-torque');
  expect(textReport(result, { rules })).not.toMatch(/fit together/);
});

it('gives no odds and no first run where the bike is left as it is', () => {
  const result = resultOf({ 'normal-sign': 'yes', complaint: 'noise' });
  expect(result.first).toBe('expectation.leave');
  expect(serious(result)).toEqual([]);
  expect(textReport(result, { rules })).not.toMatch(/Odds:|Takes 0 min|First run/);
});

it('never offers a warm-up for what gets worse down the run', () => {
  const said = { complaint: 'harsh', 'trouble-end': 'both', 'hit-pattern': 'every' };
  const offered = (answers: Readonly<Record<string, string>>): boolean =>
    resultOf(answers).adjustments.some((a) => a.id === 'oil.warm-up');
  expect(offered({ ...said, weather: 'cold' })).toBe(true);
  expect(offered({ ...said, 'run-trend': 'bottom', 'rider-today': 'tired' })).toBe(false);
});

it.each([
  ['more', 'front.spring.firmer', 'close it a click or two'],
  ['less', 'front.spring.softer', 'more open'],
] as const)('sends a rider to the rebound where sag is %s and the spring is changed', (sag, first, way) => {
  const result = resultOf({ 'sag@front': sag });
  expect(result.first).toBe(first);
  const said = textReport(result, { rules, audience: 'rider' }).replaceAll(/\s+/g, ' ');
  expect(said).toMatch(new RegExp(`nce you keep it, check the front rebound by hand: .*${way}`));
});

it('bars go back a spacer at a time, until half of what was raised or lowered is taken back', () => {
  for (const [answer, words] of [
    ['higher', /until the front grips, or half of the rise/],
    ['lower', /until hands and arms get a rest, or half of the drop/],
  ] as const) {
    const [first] = resultOf({ 'recent-change': 'cockpit', 'bar-height': answer }).adjustments;
    expect(first?.note).toMatch(words);
  }
});
