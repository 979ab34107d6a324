/** What stands beside the causes in one case, and what the case has to show for "nothing is off". */
import { complaintStands, foundNothing, lookedAt } from '../advice/checks.ts';
import type { Grounds, Heeded } from '../advice/advise.ts';
import type { Evidence } from '../diagnosis/belief.ts';
import { logEvidenceOfImpression } from '../diagnosis/impression.ts';
import type { Model } from '../diagnosis/model.ts';
import { chancesBeside, logEvidenceOfNone, noneAfterTrial, type Beside } from '../diagnosis/none.ts';

/** What was answered in one round, and ln P of it under what was believed of the causes before it. */
export interface Said {
  readonly evidence: readonly Evidence[];
  readonly underCauses: number;
}

/** One trial: P(its report | the change did nothing), and under what was believed of the causes before it. */
export interface TrialSeen {
  readonly idle: number;
  readonly told: number;
}

/** What the rounds before the last said of the bike as it stands. */
export interface Stood {
  readonly said: readonly Said[];
  readonly seen: readonly TrialSeen[];
}

/** @param said round by round; one impression is told throughout them all */
export function besideOf(model: Model, said: readonly Said[]): Beside {
  const { none, 'one-impression': one } = model.rules.numbers;
  const sum = (of: (one: Said) => number): number => said.reduce((log, round) => log + of(round), 0);
  const under = {
    none: none.prior === 0 ? -Infinity : sum(({ evidence }) => logEvidenceOfNone(model, evidence)),
    impression:
      one.prior === 0
        ? -Infinity
        : logEvidenceOfImpression(
            model,
            said.flatMap(({ evidence }) => evidence),
          ),
  };
  return chancesBeside(
    model,
    under,
    sum(({ underCauses }) => underCauses),
  );
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
export function groundsOf(model: Model, evidence: readonly Evidence[], inOwnWords: boolean): Grounds {
  let found: boolean | undefined;
  let looked: boolean | undefined;
  return {
    foundNothing: () => (found ??= foundNothing(model, evidence)),
    complaintStands: (nothing) => complaintStands(model, evidence, nothing, inOwnWords),
    lookedAt: () => (looked ??= lookedAt(model, evidence)),
  };
}
