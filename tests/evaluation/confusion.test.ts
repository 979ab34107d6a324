import { describe, expect, it } from 'vitest';
import type { Model } from '../../src/diagnosis/model.ts';
import { confusion } from '../../src/evaluation/score.ts';
import type { Interviewed } from '../../src/evaluation/simulate.ts';

const model = { rules: { causes: [{ id: 'a' }, { id: 'b' }, { id: 'c' }] } } as unknown as Model;
const run = (truth: readonly number[], first: number, verdict = 'change'): Interviewed =>
  ({ truth, asked: 3, outcome: { ranked: [first], advice: { verdict } } }) as unknown as Interviewed;

describe('confusion', () => {
  it('counts what is named first for each cause that is off alone, and for nothing', () => {
    const runs = [
      run([1], 1),
      run([1], 0),
      run([1], 0),
      run([0], 0),
      run([], 2),
      run([], 2, 'leave'),
      run([1], 1, 'leave'),
    ];
    expect(confusion(model, runs)).toEqual([
      { truth: 'a', riders: 1, said: [{ cause: 'a', count: 1 }] },
      {
        truth: 'b',
        riders: 4,
        said: [
          { cause: 'a', count: 2 },
          { cause: 'b', count: 1 },
          { cause: 'nothing', count: 1 },
        ],
      },
      {
        truth: 'nothing',
        riders: 2,
        said: [
          { cause: 'c', count: 1 },
          { cause: 'nothing', count: 1 },
        ],
      },
    ]);
  });
  it('leaves out riders with several causes off, for whom more than one answer is right', () => {
    expect(confusion(model, [run([0, 1], 2)])).toEqual([]);
  });
});
