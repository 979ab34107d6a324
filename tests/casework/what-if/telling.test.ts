/** A case told again under other strengths: the same advice as of the case worked out anew. */
import { describe, expect, it } from 'vitest';
import { prepareBike } from '../../../src/advice/prepared-bike.ts';
import type { Case, Tried } from '../../../src/casework/case.ts';
import { consult } from '../../../src/casework/consult.ts';
import { tellingOf } from '../../../src/casework/what-if/telling.ts';
import { withMoved } from '../../../src/evaluation/sensitivity.ts';
import { strengthsOf } from '../../../src/evaluation/strengths.ts';
import { modelOfTwo } from '../../support/base-rules.ts';
import { caseOf, SOUND } from '../../support/told.ts';

/** Of at most two causes at once: every case is worked out anew here. */
const model = modelOfTwo();
const bench = prepareBike(model);
const { adjustments } = model.rules;
const anew = (kase: Case, under = model) =>
  consult(under, bench, kase, { next: false, explain: 0, fit: false }).advice;
const what = ({ verdict, first, because }: ReturnType<typeof anew>) => [
  verdict,
  first === undefined ? undefined : adjustments[first]!.id,
  because,
];
const onStill = (setting: string, direction: string, by: number): Tried => ({
  setting,
  direction,
  by,
  result: 'same',
  putBack: 'no',
});
const ROWS = { ...SOUND, complaint: 'rows' };
const DEEP = { ...ROWS, 'return-speed@front': 'deep' };
const CLOSED = onStill('front.rebound.high', 'close', 2);
const HARD = { 'tyre-pressure@front': 'over', 'tyre-target@front': 'over' };
const REAR = {
  ...SOUND,
  complaint: 'air',
  lip: 'rear-over',
  'return-speed@rear': 'deep',
  'liveliness@rear': 'nervous',
};

describe('told again, a case is advised as when it is worked out anew', () => {
  it.each([
    ['the same thing turned on by the best step', caseOf(DEEP, { tried: [CLOSED] }), 'put-back'],
    [
      'two things still on',
      caseOf(
        { ...DEEP, 'repeated-hits.trend@front': 'worse', 'sag@front': 'cannot-tell' },
        { tried: [onStill('front.rebound.low', 'close', 3), CLOSED] },
      ),
      'put-back',
    ],
    [
      'a knob, and nothing else to do',
      caseOf(ROWS, { tried: [onStill('front.compression.high', 'open', 6)] }),
      undefined,
    ],
    ['what was felt before what a gauge found', caseOf({ ...REAR, ...HARD }), 'held-back'],
  ])('%s', (_, kase, because) => {
    const telling = tellingOf(model, bench, kase);
    const own = telling.own();
    expect(what(own)).toEqual(what(anew(kase)));
    if (because !== undefined) expect(own.because).toBe(because);
    const told = new Set(kase.answers.map(({ question }) => question));
    const strengths = strengthsOf(model.rules, ({ id }) => told.has(id)).slice(0, 6);
    expect(strengths.length).toBeGreaterThan(0);
    for (const strength of strengths)
      for (const value of [0.02, 0.95]) {
        const moved = withMoved(model, strength, value);
        const changed = new Map(
          strength.spots.map(({ question }) => [question, moved.rules.questions[question]!]),
        );
        expect([strength.id, value, ...what(telling.moved(strength)(value, () => changed))]).toEqual([
          strength.id,
          value,
          ...what(anew(kase, moved)),
        ]);
      }
  });
});
