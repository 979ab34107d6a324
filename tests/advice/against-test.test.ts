/** After a step that a trial found no better: what is named next, at either end. */
import { describe, expect, it } from 'vitest';
import type { Advice } from '../../src/advice/advise.ts';
import { isGuessAfterTest } from '../../src/advice/refused.ts';
import type { Situation } from '../../src/advice/hold-back.ts';
import { readDeed } from '../../src/bike/deed.ts';
import type { CaseResult, Tried } from '../../src/casework/case.ts';
import { consult } from '../../src/casework/consult.ts';
import { answersOf, bench, caseOf, model, rules } from '../support/told.ts';

type Said = Readonly<Record<string, string>>;
const idOf = (adjustment: number | undefined): string | undefined =>
  adjustment === undefined ? undefined : rules.adjustments[adjustment]!.id;

/** What is told again after a step of the low-speed rebound, and what is advised then. */
function after(said: Said, end: string, result: Partial<CaseResult>): Advice {
  const step = readDeed(`${end}.rebound.low+2`);
  const ridden = {
    change: step,
    outcome: 'worse',
    kept: false,
    points: -1.5,
    error: 0.5,
    ...result,
  } as const;
  const kase = caseOf(said, { earlier: [{ answers: answersOf(said), results: [ridden] }] });
  return consult(model, bench, kase, { next: false, explain: 0, fit: false }).advice;
}

describe.each(['front', 'rear'])('at the %s', (end) => {
  const slow = {
    'hit-pattern': 'row',
    [`repeated-hits.trend@${end}`]: 'worse',
    [`return-speed@${end}`]: 'shallow',
    [`g-out@${end}`]: 'slow',
    [`push-return@${end}`]: 'creeps',
  };
  const deep = {
    'hit-pattern': 'row',
    [`sag@${end}`]: 'target',
    [`ride-height@${end}`]: 'low',
    [`repeated-hits.depth@${end}`]: 'deeper',
    [`push-return@${end}`]: 'creeps',
  };
  it.each([
    ['rated worse', slow, {}],
    ['rated no different', deep, { outcome: 'same', points: 0, error: 0.5 }],
  ] as [string, Said, Partial<CaseResult>][])(
    'no guess stands first where the likeliest cause has a step that was %s',
    (_, said, result) => {
      const { verdict, because, first, refused } = after(said, end, result);
      expect({ verdict, because, first }).toEqual({ verdict: 'unknown' });
      expect(refused.map(({ adjustment }) => idOf(adjustment))).toContain(`${end}.rebound.low.open`);
    },
  );
  it('what is likely itself is named next', () => {
    const rows = {
      complaint: 'rows',
      'trouble-end': end,
      'hit-pattern': 'row',
      [`repeated-hits.trend@${end}`]: 'worse',
    };
    const { verdict, first } = after(rows, end, { points: -1 });
    expect([verdict, idOf(first)]).toEqual(['change', `${end}.rebound.high.open`]);
  });
  it('what was only tried before, as remembered, is no test', () => {
    const tried: Tried = {
      setting: 'rebound.low',
      end,
      direction: 'open',
      by: 2,
      result: 'worse',
      putBack: 'yes',
    };
    const { advice } = consult(model, bench, caseOf(slow, { tried: [tried] }), {
      next: false,
      explain: 0,
      fit: false,
    });
    expect(advice.verdict).toBe('change');
  });
});

it.each([
  // what was tested, what is left, how likely each cures anything
  [0.6, 0.29, true],
  [0.6, 0.31, false],
  [0.49, 0.1, false],
])('a step is a guess beside a tested one: %d and %d', (tested, left, guess) => {
  const bench = { payoff: { adjustments: Uint16Array.of(7, 3) } };
  const s = { model, bench } as unknown as Situation;
  const ridden = new Map([[7, { why: 'it was tested', tested: true as const }]]);
  expect(isGuessAfterTest(s, { wanted: 1, cure: Float64Array.of(tested, left), ridden })).toBe(guess);
});
