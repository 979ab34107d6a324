/** Which of what the rider said a trial rates. */
import { describe, expect, it } from 'vitest';
import type { Result } from '../../src/report/result/result.ts';
import { aimedAt } from '../../src/report/verdict/complaint-lines.ts';

type Line = Result['complaints'][number];
const line = (phrase: string, promise: Line['promise'], helped: number | null): Line =>
  ({ phrase, promise, helped, instead: null, ask: null }) as unknown as Line;
const rated = (...complaints: Line[]): string | undefined => aimedAt({ complaints });

describe('what a trial rates', () => {
  it('is what the change does most for, in whatever order it was said', () => {
    const hands = line('hands get hammered', 'fix', 0.62);
    const bucked = line('bucks me off jumps', 'fix', 0.95);
    expect(rated(hands, bucked)).toBe('bucks me off jumps');
    expect(rated(bucked, hands)).toBe('bucks me off jumps');
  });
  it('is what was said first where it does as much for both', () => {
    expect(rated(line('one', 'aimed', 0.8), line('other', 'fix', 0.8))).toBe('one');
  });
  it('is nothing that the change is not for', () => {
    expect(rated(line('brakes fade', 'none', 0), line('noise', 'help', 0.5))).toBeUndefined();
  });
});
