/** An idea for the other wheel than the one that something was noticed of says why it is there. */
import { expect, it } from 'vitest';
import { consult } from '../../src/casework/consult.ts';
import { toResult } from '../../src/report/result/to-result.ts';
import { bench, caseOf, model, SOUND } from '../support/told.ts';

const SAYS = 'at the other wheel: trouble there can be felt at the front';

it('is said of what waits at the rear, and of nothing at the front', () => {
  const kase = caseOf({
    ...SOUND,
    'chatter@front': 'through',
    'chatter-start@front': 'builds',
    'hit-pattern': 'row',
    'repeated-hits.trend@front': 'worse',
    'run-trend': 'section',
  });
  const { adjustments } = toResult(
    model,
    kase,
    consult(model, bench, kase, { next: false, explain: 0, fit: false }),
  );
  const [first, ...others] = adjustments;
  expect(first!.heed ?? '').not.toContain(SAYS);
  const rear = others.filter(({ id }) => id.startsWith('rear.'));
  expect(rear.length).toBeGreaterThan(0);
  for (const one of others) expect((one.heed ?? '').includes(SAYS), one.id).toBe(rear.includes(one));
});
