/**
 * Critical values of Student's t as tables print them, three places: e.g. NIST/SEMATECH e-Handbook of Statistical Methods,
 * 1.3.6.7.2. Quoted from memory, not read again for this test.
 */
import { expect, it } from 'vitest';
import { interval, tQuantile } from '../../src/trials/chance.ts';

/** What is below the value, the columns of the table. */
const BELOW = [0.9, 0.95, 0.975, 0.99, 0.995] as const;

it.each<[degrees: number, ...published: number[]]>([
  [1, 3.078, 6.314, 12.706, 31.821, 63.657],
  [2, 1.886, 2.92, 4.303, 6.965, 9.925],
  [5, 1.476, 2.015, 2.571, 3.365, 4.032],
  [10, 1.372, 1.812, 2.228, 2.764, 3.169],
  [30, 1.31, 1.697, 2.042, 2.457, 2.75],
  [100, 1.29, 1.66, 1.984, 2.364, 2.626],
])('%d degrees of freedom', (df, ...published) => {
  for (const [i, below] of BELOW.entries()) {
    expect(Number(tQuantile(below, df).toFixed(3))).toBe(published[i]);
    expect(interval({ mean: 0, scale: 1, df }, 2 * below - 1).high).toBeCloseTo(published[i]!, 3);
  }
});
