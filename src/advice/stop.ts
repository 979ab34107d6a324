/** When to stop asking, and why. */
import type { CompiledRules } from '../rulebase/compiled.ts';

/** danger: a finding that stops tuning; enough: knowing more would not change the choice much; dry: no question tells enough; full: asked enough. */
export type StopReason = 'danger' | 'enough' | 'dry' | 'full';

export interface StopInput {
  readonly dangerous: boolean;
  /** expected value of perfect information, fixes */
  readonly knowing: number;
  /** bits of the best open question; 0 when none is open */
  readonly bits: number;
  /** a safety question is still open: it is never skipped */
  readonly safetyOpen: boolean;
  readonly asked: number;
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
  if (input.knowing < enough && !input.keepAsking) return 'enough';
  return undefined;
}
