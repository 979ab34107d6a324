/** When to stop asking, and whether it is worth knowing more before anything is changed. */
import type { CompiledRules } from '../rulebase/compiled.ts';
import type { Model } from '../diagnosis/model.ts';
import { valueOfKnowing, type Payoff } from './payoff.ts';

export const STOP_REASONS = ['danger', 'enough', 'settled', 'dry', 'full'] as const;

/**
 * danger: a finding that stops tuning; enough: knowing more would not change the choice much; settled: no answer that is
 * at all likely changes what comes first, or nothing was heard that is wrong; dry: no question tells enough; full: asked enough.
 */
export type StopReason = (typeof STOP_REASONS)[number];

export interface StopInput {
  readonly dangerous: boolean;
  /** whether knowing the causes would be worth so many fixes; a look at many sets, so asked last */
  readonly worthKnowing: (enough: number) => boolean;
  /** bits of the best open question; 0 when none is open */
  readonly bits: number;
  /** a safety question is still open: it is never skipped */
  readonly safetyOpen: boolean;
  readonly asked: number;
  /** whether a likely answer to an open question would change what comes first; looked for only when it decides */
  readonly moves: () => boolean;
  /** so many answers told of nothing wrong that more would tell the same; absent: not looked at */
  readonly heardNothing?: () => boolean;
  /** the user wants to go on past "enough" */
  readonly keepAsking: boolean;
}

/** @returns undefined while it is worth asking on */
export function stopReason(numbers: CompiledRules['numbers'], input: StopInput): StopReason | undefined {
  const { enough, 'least-bits': least, 'keep-asking-bits': keep, 'most-questions': most } = numbers.asking;
  if (input.dangerous) return 'danger';
  if (input.safetyOpen) return undefined;
  if (input.asked >= most && !input.keepAsking) return 'full';
  if (input.bits < (input.keepAsking ? keep : least)) return 'dry';
  if (input.keepAsking) return undefined;
  if (input.heardNothing?.() === true) return 'settled';
  if (!input.worthKnowing(enough)) return 'enough';
  // A pack that never has enough asks on, whatever comes of it.
  return enough === 0 || input.moves() ? undefined : 'settled';
}

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
