/**
 * Strengths and priors from logged cases: penalised maximum likelihood by expectation and maximisation.
 *
 * The penalty is that of `weight` cases which came out exactly as the pack's word says: for a strength s with the pack's
 * s₀ it is weight·(s₀·ln s + (1−s₀)·ln(1−s)), a Beta prior in the log odds; for the priors, weight times the relative
 * entropy between the pack's distribution over sets and the new one. So few cases leave everything at the pack's words.
 * EM: Dempster, Laird & Rubin 1977; its noisy-OR form, one coin a cause, is common practice.
 */
import { marginals } from '../diagnosis/hypotheses.ts';
import { priorOf } from '../diagnosis/belief.ts';
import { withStrengths, type Model } from '../diagnosis/model.ts';
import { countAnswers, observer, StrengthTable, type Counts, type Seen } from './learn-count.ts';
import { spreads } from './learn-interval.ts';
import { observe, type Logged, type Observation } from './learn-observe.ts';
import { mirrored, strengthsOf, withValue, type Spot, type Strength } from './strengths.ts';

export interface LearnOptions {
  /** how many cases the pack's own words count for */
  readonly weight: number;
  readonly mostRounds: number;
  readonly progress: (round: number, change: number) => void;
}

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
  /** enough cases stand behind it, and the pack's value lies outside 99 times in 100 */
  readonly firm: boolean;
}

/** The prior of one direction of a setting; one rule for both ends. */
export interface PriorRule {
  /** `{end}.spring.too-soft`, or the cause's own id */
  readonly id: string;
  /** indices into causes */
  readonly causes: readonly number[];
}

export interface Learned {
  readonly weight: number;
  readonly cases: number;
  readonly leftOut: number;
  readonly rounds: number;
  readonly settled: boolean;
  readonly strengths: readonly (Estimate & { readonly strength: Strength })[];
  readonly priors: readonly (Estimate & { readonly rule: PriorRule })[];
}

/** Largest change of a log odds at which the estimate counts as settled. */
const SETTLED = 1e-3;
const NINE_IN_TEN = 1.645;
const ALL_BUT_ONE_IN_A_HUNDRED = 2.576;
/** What a word that the cases contradict still counts for, in cases. */
const FREED = 2;
/** Steps of EM are lengthened by this: below 2 it still settles, and sooner (over-relaxation, common practice). */
const BOLD = 1.7;
/** Nothing is learned to be impossible or certain. */
const EDGE = 5e-4;

export function learn(model: Model, logged: readonly Logged[], options: LearnOptions): Learned {
  const { observations, cases, leftOut } = observe(model, logged);
  const strengths = strengthsOf(model.rules);
  const rules = priorRules(model);
  const task: Task = {
    pack: model,
    strengths,
    rules,
    observations,
    table: new StrengthTable(model, strengths),
  };
  const { weight } = options;
  const weights: Weights = {
    strength: new Float64Array(strengths.length).fill(weight),
    prior: new Float64Array(rules.length).fill(weight),
  };
  const answered = strengths.map((s) => observations.filter((o) => answers(model, s, o)).length);
  const first = observations.filter((o) => o.bench !== undefined).length;
  let { fit, rounds, settled } = fitTo(task, model, weights, options, 0);
  const judge = () => ({
    strengths: strengths.map(
      (s, k) =>
        outside(s.value, fit.values[k]!, fit.strength[k]!) &&
        fit.counts.tosses[k]! >= weight &&
        answered[k]! > 0,
    ),
    priors: rules.map(
      (rule, r) =>
        first >= weight && outside(priorOfRule(model, rule), priorOfRule(fit.model, rule), fit.prior[r]!),
    ),
  });
  const firm = judge();
  if (firm.strengths.includes(true) || firm.priors.includes(true)) {
    // A word that the cases plainly contradict does not hold back its own estimate any longer.
    firm.strengths.forEach((f, k) => f && (weights.strength[k] = Math.min(weight, FREED)));
    firm.priors.forEach((f, r) => f && (weights.prior[r] = Math.min(weight, FREED)));
    ({ fit, rounds, settled } = fitTo(task, fit.model, weights, options, rounds));
    const still = judge();
    firm.strengths = firm.strengths.map((f, k) => f && still.strengths[k]!);
    firm.priors = firm.priors.map((f, r) => f && still.priors[r]!);
  }
  return {
    weight,
    cases,
    leftOut,
    rounds,
    settled,
    strengths: strengths.map((strength, k) => ({
      strength,
      ...interval(strength.value, fit.values[k]!, fit.strength[k]!),
      cases: answered[k]!,
      behind: fit.counts.tosses[k]!,
      firm: firm.strengths[k]!,
    })),
    priors: rules.map((rule, r) => ({
      rule,
      ...interval(priorOfRule(model, rule), priorOfRule(fit.model, rule), fit.prior[r]!),
      cases: first,
      behind: rule.causes.reduce(
        (sum, c) => sum + fit.seen.reduce((n, s) => n + (s.causes?.after[c] ?? 0), 0),
        0,
      ),
      firm: firm.priors[r]!,
    })),
  };
}

/** What stays the same from round to round. */
interface Task {
  readonly pack: Model;
  readonly strengths: readonly Strength[];
  readonly rules: readonly PriorRule[];
  readonly table: StrengthTable;
  readonly observations: readonly Observation[];
}

/** How many cases the pack counts for, one a strength and prior. */
interface Weights {
  readonly strength: Float64Array;
  readonly prior: Float64Array;
}

function fitTo(task: Task, start: Model, weights: Weights, options: LearnOptions, before: number) {
  const { strengths, rules, table, observations } = task;
  let model = start;
  let rounds = 0;
  let change = observations.length === 0 ? 0 : Infinity;
  while (change > SETTLED && rounds < options.mostRounds) {
    const next = improve(task, model, weights);
    ({ model, change } = next);
    rounds++;
    options.progress(before + rounds, change);
  }
  const values = strengths.map((s) => valueAt(model, s.spots[0]!));
  const fit = { model, values, ...spreads(model, table, values, rules, observations, weights) };
  return { fit, rounds: before + rounds, settled: change <= SETTLED };
}

function answers(model: Model, { spots }: Strength, { groups }: Observation): boolean {
  return spots.some(({ question }) =>
    groups.get(model.groupOf[question]!)?.some((e) => e.question === question),
  );
}

function priorOfRule({ odds }: Model, { causes }: PriorRule): number {
  const o = odds[causes[0]!]!;
  return o / (1 + o);
}

/** The priors, one a direction; both ends of one entry are one rule. */
function priorRules(model: Model): PriorRule[] {
  const { causes, settings } = model.rules;
  const found = new Map<string, { id: string; causes: number[] }>();
  causes.forEach((cause, c) => {
    const setting = settings[cause.setting]!;
    const id = mirrored(cause.id, setting.end);
    const key = `${setting.at} ${id} ${cause.prior}`;
    const known = found.get(key);
    if (known === undefined) found.set(key, { id, causes: [c] });
    else known.causes.push(c);
  });
  return [...found.values()];
}

function valueAt(model: Model, { question, answer, cause }: Spot): number {
  const q = model.rules.questions[question]!;
  return cause < 0 ? q.base[answer]! : q.links.find(([c, a]) => c === cause && a === answer)![2];
}

/** One round: expected counts under the model as it stands, then the strengths and priors they make most likely. */
function improve(
  { pack, strengths, rules, table, observations }: Task,
  now: Model,
  weights: Weights,
): { model: Model; change: number } {
  const read = observer(now);
  const { space } = now;
  const before = new Float64Array(space.causes);
  const after = new Float64Array(space.causes);
  // Answers first added up over the cases: the signs behind an answer depend on the set of causes alone.
  const genuine = new Map<number, { question: number; answer: number; byClass: Float64Array }>();
  for (const o of observations) {
    const seen: Seen = read(o);
    for (const g of seen.genuine) {
      const key = g.question * 64 + g.answer;
      const sum = genuine.get(key);
      if (sum === undefined) genuine.set(key, g);
      else for (let c = 0; c < g.byClass.length; c++) sum.byClass[c]! += g.byClass[c]!;
    }
    if (seen.causes === undefined) continue;
    for (let c = 0; c < before.length; c++) {
      before[c]! += seen.causes.before[c]!;
      after[c]! += seen.causes.after[c]!;
    }
  }
  const counts: Counts = { tosses: new Float64Array(table.size), hits: new Float64Array(table.size) };
  for (const { question, answer, byClass } of genuine.values())
    countAnswers(now, table, question, answer, byClass, counts);
  let change = 0;
  const questions = [...pack.rules.questions];
  const touched = new Set<number>();
  strengths.forEach((s, k) => {
    const old = valueAt(now, s.spots[0]!);
    const weight = weights.strength[k]!;
    const target = inside((counts.hits[k]! + weight * s.value) / (counts.tosses[k]! + weight));
    const step = logit(target) - logit(inside(old));
    change = Math.max(change, Math.abs(step));
    const value = step === 0 ? old : inside(expit(logit(inside(old)) + BOLD * step));
    for (const { question } of s.spots) {
      const own = s.spots.filter((x) => x.question === question);
      questions[question] = withValue(questions[question]!, own, value);
      touched.add(question);
    }
  });
  // Proportional fitting: where it rests, what the cases show and what the priors say add up to the same.
  const odds = Float64Array.from(now.odds);
  const packs = priorMarginals(pack, pack.odds);
  const mine = priorMarginals(now, now.odds);
  rules.forEach(({ causes }, r) => {
    const weight = weights.prior[r]!;
    const sum = (of: Float64Array): number => causes.reduce((n, c) => n + of[c]!, 0);
    const ratio = (sum(after) + weight * sum(packs)) / (sum(before) + weight * sum(mine));
    change = Math.max(change, Math.abs(Math.log(ratio)));
    for (const c of causes) odds[c]! *= ratio;
  });
  const changed = new Map([...touched].map((q) => [q, questions[q]!]));
  return { model: { ...withStrengths(pack, changed), odds }, change };
}

function priorMarginals(model: Model, odds: Float64Array): Float64Array {
  const { space } = model;
  const causes = marginals(space, priorOf(model, odds), model.scratch, new Float64Array(space.causes));
  const total = model.scratch[0]!;
  return causes.map((p) => p / total);
}

function interval(
  old: number,
  value: number,
  wide: number,
): Pick<Estimate, 'old' | 'value' | 'low' | 'high'> {
  const at = (z: number): number => expit(logit(inside(value)) + z * wide);
  return { old, value, low: at(-NINE_IN_TEN), high: at(NINE_IN_TEN) };
}

/** Does the pack's value lie outside the interval that holds the truth 99 times in 100? */
function outside(old: number, value: number, wide: number): boolean {
  return Math.abs(logit(inside(value)) - logit(inside(old))) > ALL_BUT_ONE_IN_A_HUNDRED * wide;
}

function inside(p: number): number {
  return Math.min(1 - EDGE, Math.max(EDGE, p));
}

function logit(p: number): number {
  return Math.log(p / (1 - p));
}

function expit(x: number): number {
  return 1 / (1 + Math.exp(-x));
}
