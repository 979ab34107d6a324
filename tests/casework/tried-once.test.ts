/** A try that is told again, or is in the log as a trial, counts once. */
import { describe, expect, it } from 'vitest';
import { readDeed } from '../../src/bike/deed.ts';
import type { Case, CaseResult, Tried } from '../../src/casework/case.ts';
import { consult } from '../../src/casework/consult.ts';
import { lessonsOf } from '../../src/casework/belief-shifts.ts';
import { answersOf, bench, caseOf, model } from '../support/told.ts';

const SAID = { complaint: 'rows', 'repeated-hits.trend@front': 'worse' };
const answers = answersOf(SAID);
const TRY: Tried = {
  setting: 'rebound.low',
  end: 'front',
  direction: 'close',
  by: 2,
  unit: 'clicks',
  result: 'worse',
  putBack: 'yes',
};
const ridden = (more: Partial<CaseResult> = {}): CaseResult => ({
  change: readDeed('front.rebound.low-2'),
  outcome: 'worse',
  kept: false,
  ...more,
});
const causes = (kase: Case): number[] =>
  Array.from(consult(model, bench, kase, { next: false, explain: 0, fit: false }).belief.causes, (p) =>
    Number(p.toFixed(9)),
  );
const after = (tried: readonly Tried[], earlier: Case['earlier']): number[] =>
  causes(caseOf(SAID, { tried, earlier }));

describe('a try', () => {
  it('counts once where two rounds tell it', () => {
    const once = after([TRY], [{ answers, results: [] }]);
    expect(after([TRY], [{ answers, results: [], tried: [TRY] }])).toEqual(once);
    expect(after([TRY], [{ answers, results: [], tried: [{ ...TRY, putBack: 'unknown' }] }])).toEqual(once);
    // Another one counts beside it.
    expect(after([TRY], [{ answers, results: [], tried: [{ ...TRY, by: 4 }] }])).not.toEqual(once);
  });

  it('that is still on makes no other bike of it by being told again', () => {
    const left: Tried = { ...TRY, putBack: 'no' };
    const once = after([left], []);
    expect(after([left], [{ answers, results: [], tried: [left] }])).toEqual(once);
  });

  it.each([
    ['as far', TRY],
    ['no number', { ...TRY, by: undefined, unit: undefined } as unknown as Tried],
    ['nothing of whether it was put back', { ...TRY, putBack: 'unknown' }],
  ] as const)('counts as the trial in the log where the rider says %s', (_, tried) => {
    const log = [{ answers, results: [ridden()] }];
    expect(after([tried], log)).toEqual(after([], log));
  });

  it.each([
    ['was rated otherwise', ridden({ outcome: 'better' })],
    ['was left on the bike', ridden({ kept: true })],
    ['was another step', ridden({ change: readDeed('front.rebound.low-4') })],
    ['went the other way', ridden({ change: readDeed('front.rebound.low+2') })],
  ])('counts beside a trial that %s', (_, result) => {
    const log = [{ answers, results: [result] }];
    expect(after([TRY], log)).not.toEqual(after([], log));
  });

  it('counts beside the trial that came after it, in the same round', () => {
    expect(causes(caseOf(SAID, { tried: [TRY], results: [ridden()] }))).not.toEqual(
      causes(caseOf(SAID, { results: [ridden()] })),
    );
  });

  it('is not told twice by the lessons of the trials either', () => {
    const moved = (tried: readonly Tried[]) =>
      lessonsOf(
        model,
        bench,
        caseOf(SAID, { tried, earlier: [{ answers, results: [ridden()] }], results: [ridden()] }),
      ).map((lesson) => lesson.moved);
    expect(moved([TRY])).toEqual(moved([]));
  });
});
