/**
 * One try that was told more than once counts once: as it was told last, and where the log has its trial, by that. A rider who
 * is interviewed again tells the same tries again.
 */
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import { amountIn } from '../../bike/change.ts';
import { changesOf, printDeed } from '../../bike/deed.ts';
import type { Model } from '../../diagnosis/model.ts';
import type { Case, CaseResult, Round, Tried } from '../case.ts';
import { placeTried, type Placed } from './place-tried.ts';

/** The case with every try where it counts. */
export function triedOnce<K extends Pick<Case, 'earlier'> & Round>(
  model: Model,
  bench: PreparedBike,
  kase: K,
): K {
  if (kase.earlier.length === 0) return kase;
  const rounds: readonly Round[] = [...kase.earlier, kase];
  if (rounds.every(({ tried = [] }) => tried.length === 0)) return kase;
  const counted = rounds.map(({ tried = [] }, i) => {
    const later = rounds.slice(i + 1).flatMap((round) => round.tried ?? []);
    const ridden = rounds.slice(0, i).flatMap((round) => round.results);
    return tried.filter(
      (one) => !later.some((other) => isToldAgain(one, other)) && !isInLog(model, bench, one, ridden),
    );
  });
  const withTried = <R extends Round>(round: R, tried: readonly Tried[]): R =>
    round.tried === undefined || tried.length === round.tried.length ? round : { ...round, tried };
  return {
    ...withTried(kase, counted.at(-1)!),
    earlier: kase.earlier.map((round, i) => withTried(round, counted[i]!)),
  };
}

/** Whether both tell the same of the same change, where one of them may leave open whether it stayed on. */
export function isToldAgain(one: Tried, other: Tried): boolean {
  const isSame = one.putBack === other.putBack || one.putBack === 'unknown' || other.putBack === 'unknown';
  return isSame && wordsOf(one) === wordsOf(other);
}

function wordsOf({ putBack: _, change, ...rest }: Tried): string {
  const told = Object.entries(rest).toSorted(([a], [b]) => (a < b ? -1 : 1));
  return JSON.stringify([change === undefined ? '' : printDeed(change), ...told]);
}

/** Whether a trial of it was ridden before, rated as it is remembered, and left on the bike or not as he says. */
function isInLog(model: Model, bench: PreparedBike, tried: Tried, ridden: readonly CaseResult[]): boolean {
  if (tried.for !== undefined || ridden.length === 0) return false;
  const placed = placeTried(model, bench, tried);
  return (
    typeof placed !== 'string' &&
    ridden.some(
      (result) =>
        (tried.result === 'not-sure' || tried.result === result.outcome) &&
        (tried.putBack === 'unknown' || (tried.putBack === 'no') === result.kept) &&
        isOf(placed, result),
    )
  );
}

/** Whether the trial turned what was tried, the same way, and where he says how far, as far. */
function isOf({ tried, changes, couldBe, change }: Placed, result: CaseResult): boolean {
  if ('name' in result.change) return 'name' in change && change.name === result.change.name;
  const isCounted = tried.by !== undefined || tried.change !== undefined;
  return changesOf(result.change).every((step) =>
    (couldBe ?? changes).some(
      ({ setting, by, unit }) =>
        setting === step.setting &&
        Math.sign(by) === Math.sign(step.by) &&
        (!isCounted || Math.abs((amountIn(step, unit) ?? Infinity) - by) < 1e-6),
    ),
  );
}
