/**
 * Strengths and priors from logged cases: penalised maximum likelihood by expectation and maximisation.
 *
 * The penalty is that of `weight` cases which came out exactly as the pack's word says: for a strength s with the pack's
 * s₀ it is weight·(s₀·ln s + (1−s₀)·ln(1−s)), a Beta prior in the log odds; for the priors, weight times the relative
 * entropy between the pack's distribution over sets and the new one. So few cases leave everything at the pack's words.
 * EM: Dempster, Laird & Rubin 1977; its noisy-OR form, one coin a cause, is common practice.
 */
import jstat from 'jstat';
import type { Model } from '../diagnosis/model.ts';
import { strengthTable } from './learn-count.ts';
import {
  expit,
  fitTo,
  inside,
  logit,
  priorRules,
  type LearnOptions,
  type PriorRule,
  type Task,
  type Weights,
} from './learn-fit.ts';
import { fitCareless, type Carelessness } from './learn-riders.ts';
import { observe, type Logged, type Observation } from './learn-observe.ts';
import { strengthsOf, type Strength } from './strengths.ts';

/** The pack's words count for as much as this many cases of one's own. */
export const PACK_WEIGHT = 20;

export interface Estimate {
  readonly old: number;
  readonly value: number;
  /** nine times in ten the truth lies between */
  readonly low: number;
  readonly high: number;
  /** cases in which the question was answered; for a prior, all */
  readonly cases: number;
  /** expected number of genuine answers with the cause off; for a prior, of bikes with it off */
  readonly behind: number;
  /** enough cases stand behind it, and the pack's value lies outside what luck explains */
  readonly firm: boolean;
}

export interface Learned {
  readonly weight: number;
  readonly cases: number;
  /** cases with a ridden change */
  readonly ridden: number;
  readonly leftOut: number;
  /** whether enough bikes were left alone for the log to say how common a cause is */
  readonly whole: boolean;
  readonly rounds: number;
  readonly settled: boolean;
  /** how often the riders of the log slip, where that is clearly not what the pack says; learned with that, and not firm */
  readonly riders?: Carelessness;
  readonly strengths: readonly (Estimate & { readonly strength: Strength })[];
  readonly priors: readonly (Estimate & { readonly rule: PriorRule })[];
}

const NINE_IN_TEN = 1.645;
/** The chance that luck alone moves any word at all; shared out over all that might move (Bonferroni). */
const LUCK = 0.05;
/** What a word that the cases contradict still counts for, in cases. */
const FREED = 2;

/**
 * A log in which fewer were left alone says nothing of how common a cause is: nearly everyone's bike had something
 * changed, so every cause looks more common than it is (judgement; of made-up riders some four in ten are left alone).
 */
const LEFT_ALONE = 0.1;

type Firm = readonly boolean[];

export function learn(model: Model, logged: readonly Logged[], options: LearnOptions): Learned {
  const { observations, cases, ridden, leftOut } = observe(model, logged);
  const strengths = strengthsOf(model.rules);
  const rules = priorRules(model);
  const table = strengthTable(model, strengths);
  let task: Task = { pack: model, strengths, rules, observations, table };
  const { weight } = options;
  const whole = cases - ridden >= LEFT_ALONE * cases;
  const answered = strengths.map((s) => observations.filter((o) => answers(model, s, o)).length);
  const first = observations.filter((o) => o.bench !== undefined).length;
  /** Strengths, then priors: which ones' words the fit contradicts beyond luck. */
  const judge = ({ estimates }: ReturnType<typeof fitWith>): Firm => {
    const tried = estimates.map((e) => e.enough);
    const tests = tried.filter(Boolean).length;
    const bound = jstat.normal.inv(1 - LUCK / (2 * Math.max(1, tests)), 0, 1);
    return estimates.map(({ old, value, wide }, i) => {
      const away = Math.abs(logit(inside(value)) - logit(inside(old)));
      return tried[i]! && away > bound * wide;
    });
  };
  const fitWith = (freed: Firm, start: Model, before: number) => {
    const own = Float64Array.from(freed, (f) => (f ? Math.min(weight, FREED) : weight));
    const weights: Weights = {
      strength: own.slice(0, strengths.length),
      prior: own.slice(strengths.length),
    };
    const result = fitTo(task, start, weights, options, before);
    const { fit } = result;
    const estimates = [
      ...strengths.map((s, k) => ({
        old: s.value,
        value: fit.values[k]!,
        wide: fit.strength[k]!,
        cases: answered[k]!,
        behind: fit.counts.tosses[k]!,
        enough: answered[k]! > 0 && fit.counts.tosses[k]! >= weight,
      })),
      ...rules.map(({ causes, held }, r) => ({
        old: priorAt(model, causes[0]!),
        value: priorAt(fit.model, causes[0]!),
        wide: fit.prior[r]!,
        cases: first,
        behind: causes.reduce(
          (sum, c) => sum + fit.seen.reduce((n, s) => n + (s.causes?.after[c] ?? 0), 0),
          0,
        ),
        enough: !held && whole && first >= weight && first > 0,
      })),
    ];
    return { ...result, estimates };
  };
  let firm: Firm = [...strengths, ...rules].map(() => false);
  let now = fitWith(firm, model, 0);
  const wanted = judge(now);
  if (wanted.includes(true)) {
    // A word that the cases plainly contradict does not hold back its own estimate any longer.
    now = fitWith(wanted, now.fit.model, now.rounds);
    const still = judge(now);
    firm = wanted.map((w, i) => w && still[i]!);
    // One that only looked so before the others moved is held to its word again.
    if (wanted.some((w, i) => w && !still[i]!)) {
      now = fitWith(firm, model, now.rounds);
      const last = judge(now);
      firm = firm.map((f, i) => f && last[i]!);
    }
  }
  const held: Firm = firm.map(() => false);
  // Slips show in many words at once; where a single word is contradicted, it is that word.
  const careless =
    firm.filter(Boolean).length === 1
      ? undefined
      : fitCareless(
          task,
          (other, before) => {
            task = { ...task, pack: other };
            return fitWith(held, other, before);
          },
          { usual: now, says: (k) => (firm[k]! ? Math.min(weight, FREED) : weight) },
        );
  if (careless !== undefined) [now, firm] = [careless.now, held];
  const unlike = careless?.riders;
  const estimates = now.estimates.map(({ old, value, wide, cases: seen, behind }, i): Estimate => {
    const at = (z: number): number => expit(logit(inside(value)) + z * wide);
    return { old, value, low: at(-NINE_IN_TEN), high: at(NINE_IN_TEN), cases: seen, behind, firm: firm[i]! };
  });
  return {
    weight,
    cases,
    ridden,
    leftOut,
    whole,
    rounds: now.rounds,
    settled: now.settled,
    ...(unlike === undefined ? {} : { riders: unlike }),
    strengths: strengths.map((strength, k) => ({ strength, ...estimates[k]! })),
    priors: rules.map((rule, r) => ({ rule, ...estimates[strengths.length + r]! })),
  };
}

function answers(model: Model, { spots }: Strength, { groups }: Observation): boolean {
  return spots.some(({ question }) =>
    groups.get(model.groupOf[question]!)?.some((e) => e.question === question),
  );
}

function priorAt({ odds }: Model, cause: number): number {
  return odds[cause]! / (1 + odds[cause]!);
}
