/** What a trial that is over says, against what the advice after it may do. */
import { expect, test } from 'vitest';
import { lastInVain } from '../../src/casework/ridden-in-vain.ts';
import { readDeed } from '../../src/bike/deed.ts';
import { judge } from '../../src/trials/judge.ts';
import { resultsOf } from '../../src/trials/outcome.ts';
import type { Trial } from '../../src/trials/trial.ts';
import { isOver, keptOnWord, verdictSentence } from '../../src/trials/verdict-words.ts';
import { planned, rode, run } from './invented.ts';

/** Four runs with every mark from 2 to 6, rated in several feelings alike, in one mark, or with feelings that disagree. */
function* allShort(): Generator<Trial> {
  const marks = [2, 3, 4, 5, 6];
  for (const feelings of ['alike', 'one', 'mixed'] as const)
    for (const hidden of [true, false])
      for (const c of marks)
        for (const d of marks)
          for (const e of marks) {
            const ridden = [4, c, d, e].map((mark, i) => {
              const one = run(i % 2 === 0 ? 'reference' : 'plus', mark);
              if (feelings === 'one') return { ...one, ratings: { overall: mark } };
              return feelings === 'alike'
                ? one
                : { ...one, ratings: { ...one.ratings, grip: mark === 6 ? 4 : mark + 1, hands: mark - 1 } };
            });
            yield { ...planned({ short: true }), hidden, ridden };
          }
}

test('the advice names a step again only where the verdict did not send the rider elsewhere, and the other way round', () => {
  const seen = new Map<string, number>();
  for (const trial of allShort()) {
    const judged = judge(trial);
    const [result] = resultsOf(trial, judged);
    const said = verdictSentence(trial, judged, true);
    if (judged.verdict === 'keep') continue;
    const again = lastInVain([result!], result!.change) === undefined;
    const says = isOver(judged)
      ? /^Better|^Can't tell: the ratings scatter|^Worse|^No clear difference/.exec(said)![0]
      : judged.verdict;
    if (isOver(judged)) expect(said.includes('look elsewhere'), said).toBe(!again);
    if (judged.verdict === 'back') expect(again, said).toBe(false);
    if (keptOnWord(judged) !== undefined) expect(result!.outcome, said).not.toBe('worse');
    seen.set(says, (seen.get(says) ?? 0) + 1);
  }
  expect([...seen.keys()].toSorted()).toEqual([
    'Better',
    "Can't tell: the ratings scatter",
    'No clear difference',
    'Worse',
    'back',
    'cannot-tell',
  ]);
});

test('a gain that is too small to be felt is no reason to ride the same step again', () => {
  const trial = rode('R4 +5 R5 +5', { short: true });
  const judged = judge(trial);
  const [result] = resultsOf(trial, judged);
  expect(result).toMatchObject({ outcome: 'same', kept: false });
  expect(result!.points).toBeGreaterThanOrEqual(0.25);
  expect(verdictSentence(trial, judged)).toMatch(/^No clear difference: .* look elsewhere/);
  expect(lastInVain([result!], readDeed('front.rebound.low+2'))).toBe(result);
});

test('where one direction of two is better and no verdict falls, that one may be kept on the word of the rider', () => {
  const trial = rode('R4 R4 +5 R4 +5 -4 -3 R5', { bothWays: true });
  const kept = keptOnWord({ ...judge(trial), verdict: 'cannot-tell' });
  expect(kept).toMatchObject({ arm: 'plus', onWord: true });
});
