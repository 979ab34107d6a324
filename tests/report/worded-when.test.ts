/** A step that the rule words for what was answered: one habit, one free trial of it. */
import { describe, expect, it } from 'vitest';
import { consult } from '../../src/casework/consult.ts';
import type { ResultAdjustment } from '../../src/report/result/result.ts';
import { toResult } from '../../src/report/result/to-result.ts';
import { bench, caseOf, model, rules, SOUND } from '../support/told.ts';

const cue = rules.adjustments.find(({ id }) => id === 'rider.cue')!;
function cueAfter(answers: Readonly<Record<string, string>>): ResultAdjustment {
  // Looseness cures it: the rider is the likeliest.
  const kase = caseOf({ ...SOUND, 'stance-effect': 'gone', 'hit-pattern': 'neither', ...answers });
  const { adjustments } = toResult(
    model,
    kase,
    consult(model, bench, kase, { next: true, explain: 5, fit: true }),
  );
  return adjustments.find(({ id }) => id === 'rider.cue')!;
}

describe('the cue of a rider', () => {
  it.each([
    [{ 'brake-habit': 'drags' }, /braking as usual.*rolling through off the brakes/],
    [{ 'brake-habit': 'inside', 'weight-place': 'back' }, /braking as usual/],
    [{ 'weight-place': 'back' }, /hips over the pedals.*not behind the saddle/],
    [{ tense: 'yes' }, /loose: weight on the feet/],
    [{ feet: 'bounce' }, /heels dropped/],
    [{ drop: 'nose' }, /kerb twice/],
    [{ 'one-spot': 'spot' }, /a metre beside it/],
    [{ 'flat-turn.front': 'pushes' }, /same easy bend twice/],
  ] as const)('after %j is one trial, ridden as usual and the other way', (answers, words) => {
    const told = cueAfter(answers);
    expect(told.do).toMatch(words);
    for (const text of [told.do, told.plain]) expect(text).toMatch(/as usual|usual line/);
    expect(told.plain).toContain('Change nothing on the bike');
    expect(told.feel).toMatch(/no setting cures it/);
    expect(told.wayBack).toBe(cue.wayBack);
  });
  it('stays general where no habit was named', () => {
    expect(cueAfter({})).toMatchObject({ do: cue.do, plain: cue.plain, feel: cue.feel });
  });
});
