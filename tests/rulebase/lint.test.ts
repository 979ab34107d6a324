import { describe, expect, it } from 'vitest';
import { answerProbabilities } from '../../src/diagnosis/answer-model.ts';
import type { Check } from '../../src/rulebase/compile-checks.ts';
import { lint } from '../../src/rulebase/lint.ts';
import { rulesOf } from '../support/compile-text.ts';
import { SMALL } from '../support/small-rules.ts';

const answering = (...questions: string[]): Check => ({
  name: 'x',
  at: 'test/a.checks.yaml:1',
  place: { file: 'a.checks.yaml', line: 1, col: 1 },
  given: Object.fromEntries(questions.map((q) => [q, 'x'])),
  expect: {},
});

/** code, severity and message of what is found. */
function found(text: string, checks: readonly Check[] = []): string[] {
  return lint(rulesOf({ 'a.yaml': text }), checks, (q, cause) =>
    answerProbabilities(q, cause < 0 ? [] : [cause], new Float64Array(q.answers.length)),
  ).map((p) => `${p.code} ${p.severity}: ${p.message}`);
}
const of = (code: string, lines: readonly string[]): string[] => lines.filter((l) => l.startsWith(code));

describe('rules that are well formed, but', () => {
  it('have a question that tells nothing, at the place of the question', () => {
    const mute = SMALL.replace(
      'points-to: {worse: {"{end}.rebound.low.too-slow": usually}}',
      'points-to: {}',
    );
    expect(of('powerless', found(mute))).toEqual([
      'powerless error: row.trend@front can never change the ranking.',
      'powerless error: row.trend@rear can never change the ranking.',
    ]);
    expect(of('powerless', found(SMALL))).toEqual([]);
  });

  it('have causes that no question points to, or too few', () => {
    expect(of('unreachable', found(SMALL))).toEqual([
      'unreachable warning: Only 2 questions point to front.rebound.low.too-slow.',
      'unreachable warning: Only 1 question points to front.rebound.low.too-fast.',
      'unreachable warning: Only 1 question points to rear.rebound.low.too-slow.',
      'unreachable error: No question points to rear.rebound.low.too-fast.',
    ]);
  });

  it('have causes that no adjustment cures in full', () => {
    // The only knob of the small rules is opened, which cures what is too slow.
    const uncured = ['front', 'rear'].map(
      (end) => `no-remedy error: No adjustment cures ${end}.rebound.low.too-fast.`,
    );
    expect(of('no-remedy', found(SMALL))).toEqual(uncured);
    const partly = SMALL.replace(
      '"{end}.rebound.low": too-fast}',
      '"{end}.rebound.low": {toward: too-fast, share: 0.9}}',
    );
    expect(of('no-remedy', found(partly))).toHaveLength(4);
    const fixed = SMALL.replace(
      '    way-back: close it\n',
      '    fixes: {"{end}.rebound.low.too-fast": 0.5}\n    way-back: close it\n',
    );
    expect(of('no-remedy', found(fixed))).toEqual([]);
  });

  it('have too few questions that tell the directions of a setting apart', () => {
    expect(of('weakly-separable', found(SMALL))).toEqual([
      'weakly-separable warning: 1 question tells the two directions of rear.rebound.low apart.',
    ]);
  });

  it('have causes that are the same to every rider, which is only noted', () => {
    const alike = SMALL.replace(
      'worse: {"{end}.rebound.low.too-slow": usually}',
      'worse: {"{end}.rebound.low.too-slow": usually, "{end}.rebound.low.too-fast": usually}',
    );
    expect(of('inseparable', found(alike))).toEqual([
      'inseparable note: No question tells rear.rebound.low.too-slow from rear.rebound.low.too-fast.',
    ]);
    expect(of('inseparable', found(SMALL))).toEqual([]);
  });

  it('have questions that no check answers', () => {
    expect(of('no-check', found(SMALL, [answering('pattern', 'row.trend@rear')]))).toEqual([
      'no-check warning: No check answers row.trend@front.',
    ]);
  });
});
