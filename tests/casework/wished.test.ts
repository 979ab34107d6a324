/** What a rider asks about doing is answered by the same belief as the advice. */
import { expect, it } from 'vitest';
import { readDeed } from '../../src/bike/deed.ts';
import type { Tried } from '../../src/casework/case.ts';
import { consult } from '../../src/casework/consult.ts';
import { PLAIN } from '../../src/report/style.ts';
import type { Result } from '../../src/report/result/result.ts';
import { toResult } from '../../src/report/result/to-result.ts';
import { askedLines } from '../../src/report/verdict/asked-lines.ts';
import { buildTriedReader } from '../../src/words/tried/tried.ts';
import { bench, caseOf, model, rules, SOUND } from '../support/told.ts';

const reader = buildTriedReader(rules);
const PACKS = {
  ...SOUND,
  'hit-pattern': 'row',
  'repeated-hits.trend@front': 'worse',
  'repeated-hits.depth@front': 'deeper',
  'push-return@front': 'creeps',
};

function resultOf(said: string, answers: Readonly<Record<string, string>>, tried?: Tried): Result {
  const kase = caseOf(answers, { said, ...(tried === undefined ? {} : { tried: [tried] }) });
  const c = consult(model, bench, kase, { next: true, explain: 5, fit: true });
  return toResult(model, kase, c, { wishes: reader.wishes(said) });
}
const lines = (r: Result): string[] => askedLines(r, { style: PLAIN, rules, audience: 'rider' });

it('what is advised is said to be so, at the end where it helps', () => {
  const result = resultOf('Should I open the rebound?', PACKS);
  expect(result.verdict).toBe('change');
  expect(result.asked).toHaveLength(1);
  expect(lines(result)).toEqual(['  - "Should I open the rebound": yes, that is this change.']);
});

it('what would ride worse is told with its odds', () => {
  const result = resultOf('Should I close the rebound of the fork?', PACKS);
  const [asked] = result.asked!;
  expect(asked!.worse).toBeGreaterThan(asked!.better);
  expect(lines(result)[0]).toMatch(/: no\b/);
});

it('two things that one question asks about have an answer each, and say which', () => {
  const both = lines(resultOf('Should I close the compression or open the rebound?', PACKS))
    .join(' ')
    .replaceAll(/\s+/g, ' ');
  expect(both).toMatch(/\(rear [a-z- ]*compression\): no/);
  expect(both).toMatch(/\(front [a-z- ]*rebound\): yes, that is this change/);
});

it('what goes back first is what he asks about', () => {
  const result = resultOf(
    'Should I open the compression?',
    { ...SOUND, complaint: 'harsh' },
    { change: readDeed('front.compression.low-4'), result: 'worse', putBack: 'no' },
  );
  expect(result.adjustments[0]!.id).toBe('put-back');
  expect(lines(result)).toEqual([expect.stringMatching(/: yes, that is this change\.$/)]);
});

it('what waits for the first step, or is named to be tried next, is not refused on the same card', () => {
  const result = resultOf('Should I close the rebound of the fork?', PACKS);
  const { id } = result.asked![0]!;
  const named = { id, do: '', plain: '', why: 'it needs this measurement first' };
  expect(lines({ ...result, insteadOf: named })[0]).toMatch(
    /: not yet: it needs this\s+measurement\s+first\.$/,
  );
  const [one] = result.adjustments;
  const listed = { ...result, adjustments: [one!, { ...one!, id }] };
  expect(lines(listed)[0]).toMatch(/: not now\. One step/);
});

it('nothing is answered where nothing was asked, nor below STOP', () => {
  expect(resultOf('The fork packs down', PACKS).asked).toBeUndefined();
  const stopped = resultOf('Should I open the rebound?', { ...PACKS, 'safety.found': 'crack' });
  expect(stopped.verdict).toBe('stop');
  expect(stopped.asked).toBeUndefined();
});

it('what nobody knows is left out', () => {
  const result = resultOf('Should I open the rebound?', PACKS);
  const wishes = [{ ...reader.wishes('Should I open the rebound?')[0]!, setting: 'no-such-thing' }];
  const kase = caseOf(PACKS);
  const c = consult(model, bench, kase, { next: true, explain: 5, fit: true });
  expect(result.asked).toBeDefined();
  expect(toResult(model, kase, c, { wishes }).asked).toBeUndefined();
});
