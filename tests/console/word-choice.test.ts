import { describe, expect, it } from 'vitest';
import { byLine, byWords, isInAny, mayBegin } from '../../src/console/word-choice.ts';

const BRAKES = ['both hold', 'one or both do not'];
const FOUND = ['a loose axle', 'a crack', 'all sound'];
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
  it.each([
    ["both won't hold", BRAKES],
    ['both won’t hold', BRAKES],
    ['both wont hold', BRAKES],
    ['both cannot hold', BRAKES],
    ['both canot hold', BRAKES],
    ['both hardly hold', BRAKES],
    ["isn't the front", ENDS],
    ['nothing loose', FOUND],
    ["isn't a crack", FOUND],
    ['rattles', ['no rattle, no knock', 'pads move']],
  ])('takes no denial for what it denies, nor the other way round: %s', (typed, names) =>
    expect(byWords(typed, names)).toBeUndefined(),
  );
  it.each([
    ['no ratle', ['rattles', 'no rattle'], 1],
    ["doesn't", ['stays put', "doesn't stay"], 1],
    ['noth', ['a loose axle', 'nothing loose'], 1],
  ])('goes by the denial of the choice itself: %s', (typed, names, at) =>
    expect(byWords(typed, names)).toBe(at),
  );
  it('knows what letters may begin one', () => {
    expect(mayBegin('f', ENDS)).toBe(true);
    expect(mayBegin('t', ENDS)).toBe(false);
    expect(isInAny('s', ENDS)).toBe(true);
    expect(isInAny('x', ENDS)).toBe(false);
  });
});

describe('a choice picked by a line', () => {
  it.each([
    ['k', false, undefined],
    ['a cr', false, undefined],
    ['a', false, undefined],
    ['cra', false, 1],
    ['axle', false, 0],
    ['axle', true, undefined],
    ['All sound.', true, 2],
    ['a loose axel', true, undefined],
  ])('%s, deliberate: %s', (line, deliberate, at) => expect(byLine(line, FOUND, deliberate)).toBe(at));
});
