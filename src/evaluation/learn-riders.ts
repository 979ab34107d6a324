/**
 * How often the riders of a log slip and mistake whole topics, where that is clearly more often than the pack takes them to.
 *
 * Slips that the pack does not know of would be taken for weak links and high base rates, and every interval would be too
 * narrow about the wrong place. Strengths that have settled about such riders hide them again; so beside the usual fit the log is
 * learned from as told by likelier riders, beginning at the pack's own strengths. Where the usual fit is not clearly better,
 * the other stands, and nothing of it is firm.
 */
import { withTelling, type Model } from '../diagnosis/model.ts';
import { observer } from './learn-count.ts';
import type { Task } from './learn-fit.ts';
import type { Observation } from './learn-observe.ts';

/** How often an answer from memory or a ride is a slip, and how often a whole topic of them is misremembered. */
export interface Carelessness {
  readonly slip: number;
  readonly trust: number;
}

/** Steps of the grid; beyond the last, nothing that such riders say is worth learning from. */
const SLIP_STEP = 0.025;
const MOST_SLIP = 0.3;
const TRUST_STEP = 0.05;
const MOST_TRUST = 0.4;
/** ln of how much likelier another place must make the log: a likelihood ratio of two more numbers, one in a thousand. */
const CLEARLY = 6.9;

const TOLD = ['recall', 'ride'] as const;

export function carelessnessOf({ rules: { numbers } }: Model): Carelessness {
  return { slip: numbers.slip.recall, trust: numbers.trust.recall };
}

/** The same strengths and priors, told by riders like this. */
export function toldBy(model: Model, { slip, trust }: Carelessness): Model {
  const { numbers } = model.rules;
  const as = (value: number) => Object.fromEntries(TOLD.map((how) => [how, value]));
  const own = {
    ...numbers,
    slip: { ...numbers.slip, ...as(slip) },
    trust: { ...numbers.trust, ...as(trust) },
  };
  return withTelling(model, own);
}

/** The place of the grid that makes the log likeliest, found by steps; the model's own where none does so clearly. */
export function likeliestRiders(model: Model, observations: readonly Observation[]): Carelessness {
  const fits = new Map<string, number>();
  const fit = (at: Carelessness): number => {
    const key = `${at.slip.toFixed(6)} ${at.trust.toFixed(6)}`;
    let known = fits.get(key);
    if (known === undefined) fits.set(key, (known = logLikelihood(toldBy(model, at), observations)));
    return known;
  };
  const own = carelessnessOf(model);
  let best = own;
  for (let moved = true; moved;) {
    moved = false;
    const { slip, trust } = best;
    const next = [
      { slip: slip + SLIP_STEP, trust },
      { slip: slip - SLIP_STEP, trust },
      { slip, trust: trust + TRUST_STEP },
      { slip, trust: trust - TRUST_STEP },
    ];
    for (const at of next) {
      const inside = at.slip >= 0 && at.slip <= MOST_SLIP && at.trust > 0 && at.trust <= MOST_TRUST;
      if (!inside || fit(at) <= fit(best)) continue;
      best = at;
      moved = true;
    }
  }
  return fit(best) - fit(own) > CLEARLY ? best : own;
}

/** What a fit comes to. */
interface Fitted {
  readonly fit: { readonly model: Model; readonly values: readonly number[] };
  readonly rounds: number;
}

/** How often it is learned from again, each time with the riders likeliest by what was just learned. */
const MOST_AGAIN = 4;

/**
 * The fit with other riders, where the log is clearly likelier of them by the pack's own strengths and the usual fit is not
 * clearly better; undefined where it is.
 * @param says how many cases the pack's word counts for, a strength; less where the usual fit is not held to it
 * @param fit learns with a model of the pack's words told by other riders, from a round on
 */
export function fitCareless<T extends Fitted>(
  task: Task,
  fit: (pack: Model, before: number) => T,
  { usual, says }: { readonly usual: T; readonly says: (strength: number) => number },
): { now: T; riders: Carelessness } | undefined {
  const { pack, observations, strengths } = task;
  let riders = likeliestRiders(pack, observations);
  if (isSame(riders, carelessnessOf(pack))) return undefined;
  let other = toldBy(pack, riders);
  let now = fit(other, usual.rounds);
  for (let again = 1; again < MOST_AGAIN; again++) {
    const likelier = likeliestRiders(now.fit.model, observations);
    if (isSame(likelier, riders)) break;
    riders = likelier;
    other = toldBy(pack, riders);
    now = fit(other, now.rounds);
  }
  /** ln P(log) and the pack's say on the strengths; its say on the priors is the same for both, or nearly. */
  const stands = ({ fit: { model, values } }: T): number =>
    strengths.reduce(
      (sum, { value }, k) => sum + says(k) * (lean(value, values[k]!) - lean(value, value)),
      logLikelihood(model, observations),
    );
  return stands(now) - stands(usual) > -AS_GOOD ? { now, riders } : undefined;
}

/** What a case that came out as the word says makes of another strength, ln. */
function lean(word: number, strength: number): number {
  return word * Math.log(strength) + (1 - word) * Math.log(1 - strength);
}

/**
 * A fit with other riders stands where the usual one is not better by this: careless riders who follow the pack's words look
 * much like careful ones of other strengths.
 */
const AS_GOOD = 2;

function isSame(one: Carelessness, other: Carelessness): boolean {
  return one.slip === other.slip && one.trust === other.trust;
}

function logLikelihood(model: Model, observations: readonly Observation[]): number {
  const read = observer(model);
  return observations.reduce((sum, o) => sum + read(o).logLikelihood, 0);
}
