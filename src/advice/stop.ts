/** When to stop asking, and why. */
import type { CompiledRules } from '../rulebase/compiled.ts';

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
