/** A bike with a log: today's complaint leads, whatever an older one that is not mended would be worth. */
import { describe, expect, it } from 'vitest';
import { consult } from '../../src/casework/consult.ts';
import type { Round } from '../../src/casework/case.ts';
import { answersOf, bench, caseOf, model, SOUND } from '../support/told.ts';

const { adjustments } = model.rules;
const FRONT = {
  ...SOUND,
  complaint: 'rows',
  'hit-pattern': 'row',
  'repeated-hits.trend@front': 'worse',
  'return-speed@front': 'deep',
  'run-trend': 'section',
};
const REAR = {
  ...SOUND,
  complaint: 'air',
  lip: 'rear-over',
  'return-speed@rear': 'deep',
  'liveliness@rear': 'nervous',
};
const round = (said: Readonly<Record<string, string>>): Round => ({ answers: answersOf(said), results: [] });
const told = (said: Readonly<Record<string, string>>, earlier: readonly Round[]) =>
  consult(model, bench, caseOf(said, { earlier }), { next: false, explain: 0, fit: false }).advice;
const endOf = (index: number | undefined): string => adjustments[index!]!.id.split('.')[0]!;

describe('two complaints, one of today and one from before', () => {
  it('has the step for what is told today first, and the older as a line and in the list', () => {
    const front = told(FRONT, []);
    expect(endOf(front.first)).toBe('front');
    const advice = told(REAR, [round(FRONT)]);
    expect(advice.verdict).toBe('change');
    expect(endOf(advice.first)).toBe('rear');
    expect(advice.ranked[0]!.adjustment).toBe(advice.first);
    const order = advice.ranked.map(({ adjustment }) => endOf(adjustment));
    expect(order).toContain('front');
  });
  it('leaves the older first where no step for today is worth its trial', () => {
    const advice = told({ ...SOUND, complaint: 'air', lip: 'rear-over' }, [round(FRONT)]);
    expect(endOf(advice.first)).toBe('front');
    const rear = advice.ranked.find(({ adjustment }) => endOf(adjustment) === 'rear')!;
    expect(rear.worth).toBeLessThanOrEqual(0);
  });
  it('leaves the first where today says the same again', () => {
    const again = told(FRONT, [round(REAR)]);
    expect(endOf(again.first)).toBe('front');
    expect(told(FRONT, []).first).toBe(again.first);
  });

  it('has the step for what was felt before one for what a gauge found, where it is likely enough', () => {
    const hard = { 'tyre-pressure@front': 'over', 'tyre-target@front': 'over' };
    const likely = told({ ...REAR, ...hard }, []);
    expect(endOf(told({ ...SOUND, ...hard }, []).first)).toBe('front');
    expect(endOf(likely.first)).toBe('rear');
    expect(likely.insteadOf?.why).toBe('it does not help with what was felt on the ride; that comes first');
    // One sign alone is too little for that.
    expect(endOf(told({ ...SOUND, ...hard, lip: 'rear-over' }, []).first)).toBe('front');
  });
});
