/** A knob that the answers leave no room: it cannot go further, and what comes after it is named, as behind a stop. */
import { describe, expect, it } from 'vitest';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import { readSheet } from '../../src/bike/form/read.ts';
import { saidOf } from '../../src/bike/form/said.ts';
import { consult } from '../../src/casework/consult.ts';
import { firstOf } from '../../src/report/result/result.ts';
import { toResult } from '../../src/report/result/to-result.ts';
import { textReport } from '../../src/report/text.ts';
import { caseOf, model, rules, SOUND } from '../support/told.ts';

const SPRINGS_UP = {
  'liveliness@front': 'bouncy',
  'landing@front': 'bounced',
  'kick-when@front': 'after',
  'push-return@front': 'springs',
  'sag@front': 'target',
};

function told(rebound: 'one' | 'two', answers: Readonly<Record<string, string>>) {
  const said = saidOf({ front: { spring: 'air', rebound, compression: 'none' } }, rules.adjusters).bike!;
  const bench = prepareBike(model, undefined, undefined, undefined, said);
  const kase = caseOf({ ...SOUND, ...SPRINGS_UP, ...answers });
  return toResult(model, kase, consult(model, bench, kase, { next: false, explain: 3, fit: false }));
}

describe('a knob that is nearly closed', () => {
  it('is closed where there is room', () => {
    expect(told('two', { 'knob-place@front': 'middle' }).first).toBe('front.rebound.low.close');
  });

  it('hands over to the other circuit, and is said to have hardly a click left', () => {
    const result = told('two', { 'knob-place@front': 'closed', 'knob-effect@front': 'yes' });
    expect(result).toMatchObject({ first: 'front.rebound.high.close', because: 'next-rung' });
    expect(result.insteadOf).toMatchObject({
      id: 'front.rebound.low.close',
      why: expect.stringContaining('hardly a click of it is left'),
    });
  });

  it('is tried from stop to stop first, where nobody did', () => {
    const result = told('two', { 'knob-place@front': 'closed' });
    expect(result.refused).toContainEqual(
      expect.objectContaining({
        id: 'front.rebound.low.close',
        why: expect.stringContaining('see first whether it does anything'),
      }),
    );
    expect(result.because).not.toBe('next-rung');
  });

  it('names what comes after it where it is the only one, and closes nothing further', () => {
    const result = told('one', { 'knob-place@front': 'closed', 'knob-effect@front': 'yes' });
    expect(result.adjustments.map(({ change }) => change)).not.toContain('front.rebound.low-2');
    expect(textReport(result, { rules }).replaceAll(/\s+/g, ' ')).toMatch(
      /hardly a click of it is left\. After that comes "Have the front damper revalved with firmer rebound"/,
    );
  });
});

describe('what else a step does', () => {
  it.each([
    ['none', false],
    [{ clicks: 12, now: 5 }, true],
  ])('speaks of a compression knob only where there may be one: %j', (compression, speaks) => {
    const { sheet } = readSheet(
      {
        bike: 1,
        id: 'x',
        kind: 'trail',
        front: { travel: 140, spring: { kind: 'air', pressure: 70 }, compression },
        rear: { travel: 130, spring: { kind: 'air', pressure: 160 } },
      },
      rules.adjusters,
    );
    const bench = prepareBike(model, sheet);
    const kase = caseOf({ ...SOUND, complaint: 'braking', 'sag@front': 'more', 'ride-height@front': 'low' });
    const c = consult(model, bench, kase, { next: false, explain: 3, fit: false });
    const first = firstOf(toResult(model, kase, c))!;
    expect(first.id).toBe('front.spring.firmer');
    expect(first.knockOn[0]).toContain('rebounds faster');
    expect(first.knockOn.join(' ').includes('compression')).toBe(speaks);
  });
});
