/** Whether it is worth knowing more before anything is changed. */
import type { Model } from '../diagnosis/model.ts';
import { valueOfKnowing, type Payoff } from './payoff.ts';

/** Sets as likely as this are looked at one by one; of likelier ones first, because few of them tell enough. */
const LIKELY = [0.02, 0.002];

/**
 * Whether knowing the causes would be worth at least so much, in fixes. It mostly is, and a few likely sets say so: what is
 * best under every set is only worked out where they do not.
 */
export function isWorthKnowing(
  payoff: Payoff,
  space: Pick<Model['space'], 'parent' | 'last' | 'causes'>,
  weights: Float64Array,
  chosen: number,
  enough: number,
): boolean {
  const least = enough + Math.max(0, chosen);
  const holds = new Uint8Array(space.causes);
  let known = 0;
  let above = Infinity;
  for (const from of LIKELY) {
    for (let h = 0; h < weights.length; h++) {
      const w = weights[h]!;
      if (w < from || w >= above) continue;
      known += w * bestUnder(payoff, space, holds, h);
      if (known >= least) return true;
    }
    above = from;
  }
  return valueOfKnowing(payoff, weights, chosen) >= enough;
}

/** Worth of the best choice under one set; 0 = leave it. @param holds a place a cause, all 0, as it is again afterwards */
function bestUnder(
  { base, gainStart, gainCause, gain }: Payoff,
  { parent, last }: Pick<Model['space'], 'parent' | 'last'>,
  holds: Uint8Array,
  set: number,
): number {
  for (let h = set; h > 0; h = parent[h]!) holds[last[h]!] = 1;
  let best = 0;
  for (let a = 0; a < base.length; a++) {
    let worth = base[a]!;
    for (let i = gainStart[a]!; i < gainStart[a + 1]!; i++) if (holds[gainCause[i]!] === 1) worth += gain[i]!;
    if (worth > best) best = worth;
  }
  for (let h = set; h > 0; h = parent[h]!) holds[last[h]!] = 0;
  return best;
}
