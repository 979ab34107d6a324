import { describe, expect, it } from 'vitest';
import { byWords, isInAny, mayBegin } from '../../src/console/word-choice.ts';

const ENDS = ['neither stands out', 'the front', 'the rear', 'both'];

describe('a choice picked by its words', () => {
  it.each([
    ['rear', 2],
    ['Rear', 2],
    ['the rear', 2],
    ['rea', 2],
    ['front fork', 1],
    ['it is the front', 1],
    ['both', 3],
    ['neither', 0],
    ['the', undefined],
    ['sideways', undefined],
    ['not the front', undefined],
    ['front rear', undefined],
    ['', undefined],
  ])('%s', (typed, at) => expect(byWords(typed, ENDS)).toBe(at));
  it('goes by the one that begins with it, then by the one that is no longer', () => {
    expect(byWords('worse', ['no worse', 'worse', 'about the same'])).toBe(1);
    expect(byWords('better', ['better, then worse', 'better', 'worse'])).toBe(1);
    expect(byWords('about right', ['about right', 'about right at first, then not'])).toBe(0);
  });
  it('minds no doubled letter, of which the keys hand on one', () =>
    expect(byWords('botom', ['bottoms out', 'tops out'])).toBe(0));
  it('knows what letters may begin one', () => {
    expect(mayBegin('f', ENDS)).toBe(true);
    expect(mayBegin('t', ENDS)).toBe(false);
    expect(isInAny('s', ENDS)).toBe(true);
    expect(isInAny('x', ENDS)).toBe(false);
  });
});
