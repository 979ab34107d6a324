/** What the earlier rounds of a case say of its rider: how readily this one names signs. */
import type { PreparedBike } from '../advice/prepared-bike.ts';
import type { Evidence } from '../diagnosis/belief.ts';
import type { Model } from '../diagnosis/model.ts';
import { atReadiness, readinessOf, type Interview } from '../diagnosis/readiness.ts';
import { afterTrial, beforeTrial, tabulateTrial } from '../diagnosis/results.ts';
import type { Case, Round } from './case.ts';
import { heardOnce } from './retold.ts';
import { riddenEffect } from './trial-effect.ts';

const kept = new WeakMap<readonly Round[], { model: Model; bench: PreparedBike; shift: number }>();

/**
 * The shift of this rider's base rates that counts, log odds: 0 until there are enough interviews, and where what they
 * say is less than worth saying (`numbers.rider`). An interview is weighed with what its own trials said of the bike
 * before them; it may be about the bike as the last one left it, or about one that was ridden, serviced and changed in
 * between. What is said again of a bike that was put back counts once.
 */
export function shiftOf(model: Model, bench: PreparedBike, { earlier }: Pick<Case, 'earlier'>): number {
  const { spread, from, least, stays } = model.rules.numbers.rider;
  if (spread === 0 || earlier.length < from) return 0;
  const known = kept.get(earlier);
  if (known?.model === model && known.bench === bench) return known.shift;
  const counted = heardOnce(model, bench.fact, earlier);
  const interviews = earlier.flatMap((round, i) => interviewOf(model, bench, round, counted[i]!) ?? []);
  const { shift } = interviews.length < from ? { shift: 0 } : readinessOf(model, interviews, spread, stays);
  const worth = Math.abs(shift) < least ? 0 : shift;
  keepShift(model, bench, earlier, worth);
  return worth;
}

/** Tells the shift of these rounds, known from an earlier start. */
export function keepShift(model: Model, bench: PreparedBike, earlier: readonly Round[], shift: number): void {
  kept.set(earlier, { model, bench, shift });
}

/** The model as it holds for the rider of this case. */
export function modelFor(model: Model, bench: PreparedBike, kase: Pick<Case, 'earlier'>): Model {
  return atReadiness(model, shiftOf(model, bench, kase));
}

/** A round as an interview; undefined when nothing of it counts. */
function interviewOf(
  model: Model,
  bench: PreparedBike,
  round: Round,
  evidence: readonly Evidence[],
): Interview | undefined {
  if (evidence.length === 0) return undefined;
  const tables = round.results.flatMap((result) => {
    const effect = riddenEffect(model, bench, result.change);
    return effect === undefined ? [] : [tabulateTrial(model, effect, result, result.kept)];
  });
  if (tables.length === 0) return { evidence, prior: bench.prior };
  const outcomes = tables.reduceRight<Float64Array>(
    (later, table) => beforeTrial(later, table),
    new Float64Array(model.space.size).fill(1),
  );
  return {
    evidence,
    prior: bench.prior,
    outcomes,
    left: (told) => tables.reduce(afterTrial, told),
  };
}
