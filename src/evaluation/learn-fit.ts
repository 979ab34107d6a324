/** One fit of strengths and priors to logged cases, with a given weight on each of the pack's words. */
import { priorOf } from '../diagnosis/belief.ts';
import { marginals } from '../diagnosis/hypotheses.ts';
import { withStrengths, type Model } from '../diagnosis/model.ts';
import { countAnswers, observer, type Counts, type Seen, type StrengthTable } from './learn-count.ts';
import { spreads } from './learn-interval.ts';
import type { Observation } from './learn-observe.ts';
import type { Spot } from '../casework/what-if/moved.ts';
import { mirrored, withValue, type Strength } from './strengths.ts';

export interface LearnOptions {
  /** how many cases the pack's own words count for */
  readonly weight: number;
  readonly mostRounds: number;
  readonly progress: (round: number, change: number) => void;
}

/** The prior of one direction of a setting; one rule for both ends. */
export interface PriorRule {
  /** `{end}.spring.too-soft`, or the cause's own id */
  readonly id: string;
  /** indices into causes */
  readonly causes: readonly number[];
  /** kept at the pack's word, whatever the log says */
  readonly held: boolean;
}

/** Largest change of a log odds at which the estimate counts as settled: finer steps move no word. */
const SETTLED = 2e-2;
/**
 * What is not on the bike explains whatever the rest does not, so in a log of riders unlike the pack it would take in all
 * that does not fit. How common it is, a log of changed bikes cannot say: these priors are held to the pack's word.
 */
const HELD: ReadonlySet<string> = new Set(['rider', 'cockpit']);
/** Steps of EM are lengthened by this: below 2 it still settles, and sooner (over-relaxation, common practice). */
const BOLD = 1.7;
/** Nothing is learned to be impossible or certain. */
const EDGE = 5e-4;

/** What stays the same from round to round. */
export interface Task {
  readonly pack: Model;
  readonly strengths: readonly Strength[];
  readonly rules: readonly PriorRule[];
  readonly table: StrengthTable;
  readonly observations: readonly Observation[];
}

/** How many cases the pack counts for, one a strength and prior. */
export interface Weights {
  readonly strength: Float64Array;
  readonly prior: Float64Array;
}

export function fitTo(task: Task, start: Model, weights: Weights, options: LearnOptions, before: number) {
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

/** The priors, one a direction; both ends of one entry are one rule. */
export function priorRules(model: Model): PriorRule[] {
  const { causes, settings } = model.rules;
  const found = new Map<string, { id: string; causes: number[]; held: boolean }>();
  causes.forEach((cause, c) => {
    const setting = settings[cause.setting]!;
    const id = mirrored(cause.id, setting.end);
    const key = `${setting.at} ${id} ${cause.prior}`;
    const known = found.get(key);
    if (known === undefined) found.set(key, { id, causes: [c], held: HELD.has(setting.kind) });
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
  const values = strengths.map((s) => valueAt(now, s.spots[0]!));
  for (const g of genuine.values()) countAnswers(now, table, values, g, counts);
  let change = 0;
  const questions = [...pack.rules.questions];
  const touched = new Set<number>();
  strengths.forEach((s, k) => {
    const old = values[k]!;
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
  rules.forEach(({ causes, held }, r) => {
    if (held) return;
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

export function inside(p: number): number {
  return Math.min(1 - EDGE, Math.max(EDGE, p));
}

export function logit(p: number): number {
  return Math.log(p / (1 - p));
}

export function expit(x: number): number {
  return 1 / (1 + Math.exp(-x));
}
