/**
 * How readily one rider names signs: a shift of the base rates of all that is remembered or ridden, in log odds, the same
 * for every sign. 0 is the rider of the pack; a complainer is above it, an understater below.
 *
 * One interview cannot tell a complainer from a bike with much wrong with it; several can, because what is wrong changes
 * and the rider does not. P(shift | interviews) ∝ N(shift; 0, spread) · Π P(answers | earlier answers, shift), each
 * interview's causes summed out exactly. The bike stands with a chance (`rider.stays`) as the last one left it, so that a
 * fault that lasts is no new sign of a complainer each time. What the stand shows is not the rider's to name, and is not
 * shifted.
 */
import { update, type Evidence } from './belief.ts';
import { withStrengths, type Model } from './model.ts';

/** One interview of the rider. */
export interface Interview {
  /** what counts of it */
  readonly evidence: readonly Evidence[];
  /** weights of the sets on a bike of which nothing is known yet, any scale */
  readonly prior: Float64Array;
  /** how likely each set makes what the trials after it came to; absent: none were ridden */
  readonly outcomes?: Float64Array;
  /** from what is believed after the answers to what is believed after the trials; absent: the same */
  readonly left?: (told: Float64Array) => Float64Array;
}

export interface Readiness {
  /** mean of the shift after the interviews, log odds, rounded to a twentieth: so that few models are made of it */
  readonly shift: number;
  /** its standard deviation */
  readonly error: number;
}

/** Where ln P(answers | shift) is worked out; it is smooth, and the polynomial through these tells it between them. */
const NODES = [-2, -1, 0, 1, 2];
const GRID = Array.from({ length: 81 }, (_, i) => (i - 40) / 20);

/**
 * @param interviews oldest first
 * @param spread standard deviation of the shift between riders, log odds; 0 = all riders are alike
 * @param stays chance that the bike of an interview is as the last one left it; with 0 no order matters
 * @throws ImpossibleEvidence
 */
export function readinessOf(
  model: Model,
  interviews: readonly Interview[],
  spread: number,
  stays = 0,
): Readiness {
  if (interviews.length === 0 || spread === 0) return { shift: 0, error: spread };
  const atNodes = NODES.map((shift) => logChance(atReadiness(model, shift), interviews, stays));
  const logs = GRID.map((shift) => through(NODES, atNodes, shift) - (shift / spread) ** 2 / 2);
  const top = Math.max(...logs);
  const weights = logs.map((log) => Math.exp(log - top));
  const total = weights.reduce((sum, w) => sum + w, 0);
  const mean = GRID.reduce((sum, x, i) => sum + x * weights[i]!, 0) / total;
  const variance = GRID.reduce((sum, x, i) => sum + (x - mean) ** 2 * weights[i]!, 0) / total;
  return { shift: Math.round(20 * mean) / 20, error: Math.sqrt(variance) };
}

/** ln P(answers of all interviews | what their trials came to). */
function logChance(shifted: Model, interviews: readonly Interview[], stays: number): number {
  let left: Float64Array | undefined;
  const logs = interviews.map(({ evidence, prior, outcomes, left: after }) => {
    const start = left === undefined || stays === 0 ? prior : mixed(prior, left, stays);
    const before = outcomes === undefined ? start : start.map((w, h) => w * outcomes[h]!);
    const { weights, logEvidence } = update(shifted, before, evidence, room(shifted));
    // What the trials came to is told once more by what they leave.
    const told = weights.map((w, h) => (w > 0 && outcomes !== undefined ? w / outcomes[h]! : w));
    left = stays === 0 ? undefined : after === undefined ? told : after(told);
    return logEvidence;
  });
  // Sorted, so that the order of the interviews cannot be seen in the last bits where it does not matter.
  return logs.sort((a, b) => a - b).reduce((sum, x) => sum + x, 0);
}

/** Weights of a bike that stands as it was left, or of which nothing is known. */
function mixed(fresh: Float64Array, left: Float64Array, stays: number): Float64Array {
  const all = fresh.reduce((sum, w) => sum + w, 0);
  const held = left.reduce((sum, w) => sum + w, 0);
  return fresh.map((w, h) => ((1 - stays) * w) / all + (stays * left[h]!) / held);
}

/** The polynomial through some points, at x (Lagrange). */
function through(xs: readonly number[], ys: readonly number[], x: number): number {
  return ys.reduce((sum, y, i) => {
    const weight = xs.reduce((w, other, k) => (k === i ? w : (w * (x - other)) / (xs[i]! - other)), 1);
    return sum + y * weight;
  }, 0);
}

const shiftedModels = new WeakMap<Model, Map<number, Model>>();

/** The model as it holds for a rider of this readiness; the same object again for the same shift. */
export function atReadiness(model: Model, shift: number): Model {
  if (shift === 0) return model;
  let known = shiftedModels.get(model);
  if (known === undefined) shiftedModels.set(model, (known = new Map()));
  let made = known.get(shift);
  if (made === undefined) known.set(shift, (made = shifted(model, shift)));
  return made;
}

function shifted(model: Model, shift: number): Model {
  const odds = Math.exp(shift);
  const changed = model.rules.questions.flatMap((q, index) => {
    if (q.how === 'stand') return [];
    const base = q.base.map((b, a) => (a === q.default ? b : (b * odds) / (1 - b + b * odds)));
    return [[index, { ...q, base }] as const];
  });
  return withStrengths(model, new Map(changed));
}

const rooms = new WeakMap<Model, Float64Array<ArrayBuffer>>();

/** Where posteriors go that nobody looks at. */
function room(model: Model): Float64Array<ArrayBuffer> {
  let made = rooms.get(model);
  if (made === undefined) rooms.set(model, (made = new Float64Array(model.space.size)));
  return made;
}
