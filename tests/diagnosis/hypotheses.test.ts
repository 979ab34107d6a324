import { describe, expect, it } from 'vitest';
import { enumerate, membersOf } from '../../src/diagnosis/hypotheses.ts';

describe('the sets of causes', () => {
  it('by hand: three of four at once, but two beside one of a kind', () => {
    // 1 + 4 + 6, and of the four sets of three only the one without cause 1.
    const space = enumerate([0, 1, 2, 3], { most: 3, beside: [3, 2, 3, 3] });
    const sets = Array.from({ length: space.size }, (_, h) => membersOf(space, h));
    expect(sets).toHaveLength(12);
    expect(sets.filter((set) => set.length === 3)).toEqual([[0, 2, 3]]);
    expect(sets).toContainEqual([1, 3]);
  });
  it('hold no two directions of one setting', () => {
    const space = enumerate([0, 0, 1], 3);
    const sets = Array.from({ length: space.size }, (_, h) => membersOf(space, h));
    expect(sets).toEqual([[], [0], [0, 2], [1], [1, 2], [2]]);
  });
});
