/** Why a step is advised: a trial stands among the reasons where it is among the strongest. */
import { describe, expect, it } from 'vitest';
import { readDeed } from '../../src/bike/deed.ts';
import type { CaseResult } from '../../src/casework/case.ts';
import { consult } from '../../src/casework/consult.ts';
import { firstOf } from '../../src/report/result/result.ts';
import { toResult } from '../../src/report/result/to-result.ts';
import { PLAIN } from '../../src/report/style.ts';
import { whyLines } from '../../src/report/verdict/step-lines.ts';
import type { Words } from '../../src/report/verdict/voice.ts';
import { answersOf, bench, caseOf, model, rules } from '../support/told.ts';

const words: Words = { style: PLAIN, rules, audience: 'mechanic' };
const rows = {
  complaint: 'rows',
  'trouble-end': 'front',
  'hit-pattern': 'row',
  'repeated-hits.trend@front': 'worse',
};

/** Told again after a trial of an earlier round. */
function why(
  change: string,
  rated: Pick<CaseResult, 'outcome' | 'points' | 'error'>,
  more: Readonly<Record<string, string>> = {},
): string {
  const said = { ...rows, ...more };
  const ridden: CaseResult = { change: readDeed(change), kept: false, error: 0.4, ...rated };
  const kase = caseOf(said, { earlier: [{ answers: answersOf(said), results: [ridden] }] });
  const told = toResult(model, kase, consult(model, bench, kase, { next: false, explain: 5, fit: false }));
  return whyLines(told, firstOf(told)!, words).join(' ').replaceAll(/\s+/g, ' ');
}

describe('a trial of an earlier round', () => {
  it('is a reason where it is among the two that speak most for it', () => {
    expect(why('front.rebound.low-2', { outcome: 'worse', points: -2 })).toMatch(
      /front low-speed rebound too slow.*because:.*- Trial: front low-speed rebound 2 clicks in: worse/,
    );
  });
  it('is told as what speaks against it where that is as loud', () => {
    const slow = { 'return-speed@front': 'shallow', 'g-out@front': 'slow' };
    const said = why('front.rebound.low+2', { outcome: 'same', points: 0, error: 0.65 }, slow);
    expect(said).toMatch(
      /front low-speed rebound too slow.*- Against it: Trial: front low-speed rebound 2 clicks out: no difference/,
    );
  });
  it('is none where it says little', () => {
    expect(why('rear.compression.low+2', { outcome: 'same', points: 0 })).not.toContain('Trial');
  });
});
