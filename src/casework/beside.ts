/** What stands beside the causes in one case, and what the case has to show for "nothing is off". */
import { complaintStands, foundNothing, lookedAt } from '../advice/checks.ts';
import type { Grounds, Heeded } from '../advice/advise.ts';
import type { Evidence } from '../diagnosis/belief.ts';
import { logEvidenceOfImpression } from '../diagnosis/impression.ts';
import type { Model } from '../diagnosis/model.ts';
import { chancesBeside, logEvidenceOfNone, noneAfterTrial, type Beside } from '../diagnosis/none.ts';

/** @param underCauses ln P(answers) under the causes */
export function besideOf(model: Model, underCauses: number, evidence: readonly Evidence[]): Beside {
  const { none, 'one-impression': one } = model.rules.numbers;
  const under = {
    none: none.prior === 0 ? -Infinity : logEvidenceOfNone(model, evidence),
    impression: one.prior === 0 ? -Infinity : logEvidenceOfImpression(model, evidence),
  };
  return chancesBeside(model, under, underCauses);
}

/** One trial: P(its report | the change did nothing), and under what was believed of the causes before it. */
export interface TrialSeen {
  readonly idle: number;
  readonly told: number;
}

/** After the trials: under both a change does nothing, so no trial says which of the two it is. */
export function besideAfter(
  { none, impression }: Beside,
  trials: readonly TrialSeen[],
): Required<Pick<Heeded, 'none' | 'impression'>> {
  const before = none + impression;
  const after = trials.reduce((p, { idle, told }) => noneAfterTrial(p, idle, told), before);
  return { none: after, impression: before === 0 ? 0 : after * (impression / before) };
}

/** What the looks found, and whether the complaint stands all the same; few cases hang on it. */
export function groundsOf(model: Model, evidence: readonly Evidence[]): Grounds {
  let found: boolean | undefined;
  let stands: boolean | undefined;
  let looked: boolean | undefined;
  return {
    foundNothing: () => (found ??= foundNothing(model, evidence)),
    complaintStands: () => (stands ??= complaintStands(model, evidence)),
    lookedAt: () => (looked ??= lookedAt(model, evidence)),
  };
}
