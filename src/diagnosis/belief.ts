/** Posterior over all sets of causes, from prior weights and answers. */
import { priorWeights } from './hypotheses.ts';
import type { Joint } from './joint.ts';
import type { Model } from './model.ts';
import { chanceOfStory, type ToldWrongly } from './correlated-errors.ts';
import { setsMachine } from './fast/sets-machine.ts';
import type { GroupFactor } from './fast/weigh.ts';

/** One answer that counts: question and answer by index, and how sure the rider was (1 = sure). */
export interface Evidence {
  readonly question: number;
  readonly answer: number;
  readonly sure: number;
  /** of several answers to one question: what each counts, 0..1; absent where it is the only one */
  readonly share?: number;
  /** chance of the answer where the rider does not answer for the bike; absent: as every other answer of the question */
  readonly floor?: number;
}

export interface Belief {
  /** normalised probability of every set */
  readonly weights: Float64Array;
  /** probability of every cause */
  readonly causes: Float64Array;
  /** probability that nothing is off */
  readonly nothing: number;
  /** natural logarithm of P(answers) under the model */
  readonly logEvidence: number;
}

/** Raised when the answers have probability zero under every set; only possible with strengths of exactly 0 or 1. */
export class ImpossibleEvidence extends Error {
  constructor() {
    super('The rules say these answers cannot all be right.');
    this.name = 'ImpossibleEvidence';
  }
}

/** Prior weights of every set, unnormalised, from odds a cause. */
export function priorOf(model: Model, odds: Float64Array = model.odds): Float64Array {
  return priorWeights(model.space, odds, new Float64Array(model.space.size));
}

/** Answers by the group they share a trust in; each group in the order of the rule base, so order cannot matter. */
export function byGroup(
  model: Model,
  evidence: readonly Evidence[],
): ReadonlyMap<number, readonly Evidence[]> {
  // A case asks for it several times with the same list, which nobody changes once it is made.
  const known = grouped.get(evidence);
  if (known?.model === model) return known.groups;
  const groups = groupsOf(model, evidence);
  grouped.set(evidence, { model, groups });
  return groups;
}

const grouped = new WeakMap<
  readonly Evidence[],
  { readonly model: Model; readonly groups: ReadonlyMap<number, readonly Evidence[]> }
>();

function groupsOf(model: Model, evidence: readonly Evidence[]): Map<number, Evidence[]> {
  const out = new Map<number, Evidence[]>();
  const { groups, groupOf, jointOf } = model;
  // Where an end is not known, the answers of both ends go together.
  const joined = new Set<number>();
  for (const { question } of evidence)
    if (groups[groupOf[question]!]!.joint !== undefined) joined.add(groupOf[question]!);
  for (const e of [...evidence].sort((a, b) => a.question - b.question || a.answer - b.answer)) {
    const own = groupOf[e.question]!;
    const g = joined.size > 0 && joined.has(jointOf[own]!) ? jointOf[own]! : own;
    const list = out.get(g);
    if (list === undefined) out.set(g, [e]);
    else list.push(e);
  }
  return new Map([...out].sort(([a], [b]) => a - b));
}

/** P(a group's answers | its impression is wrong): they agree with each other, whatever the bike does. */
export function wrongly(model: Model, group: number, answers: readonly Evidence[]): number {
  const { stories, bound } = model.groups[group]!;
  const m = (question: number): number => model.rules.questions[question]!.answers.length;
  if (answers.length === 1 && answers[0]!.share === undefined) {
    const { question, sure, floor } = answers[0]!;
    return floor === undefined ? 1 / m(question) : sure / m(question) + floor;
  }
  const fits = stories();
  const told = new Map<number, ToldWrongly>();
  for (const { question, answer, sure, share = 1, floor } of answers) {
    const before = told.get(question);
    told.set(question, {
      fits: fits.get(question),
      given: [...(before?.given ?? []), answer],
      answers: m(question),
      bound: sure * bound,
      counts: (before?.counts ?? 0) + share,
      ...(floor === undefined ? {} : { rest: (sure * (1 - bound)) / m(question) + floor }),
    });
  }
  return chanceOfStory([...told.values()]);
}

/**
 * Likelihood of one group's answers for each of its classes, if the impression can be trusted, and if it cannot. Not for a
 * joint group, which has two impressions.
 */
export function groupLikelihood(
  model: Model,
  group: number,
  answers: readonly Evidence[],
): { trusted: Float64Array; wrong: number } {
  return { trusted: likelihood(model, group, answers), wrong: wrongly(model, group, answers) };
}

/** (1−d)·Π P(a|h) + d·P(a… | wrong) for each class of the group; of a joint group, the mean over the two ends. */
export function groupFactor(model: Model, group: number, answers: readonly Evidence[]): Float64Array {
  const { joint, doubt } = model.groups[group]!;
  if (joint !== undefined) return jointFactor(model, joint, answers);
  return likelihood(model, group, answers, doubt, wrongly(model, group, answers));
}

/** (1−d)·Π P(a|h) + d·wrong for each class */
function likelihood(
  model: Model,
  group: number,
  answers: readonly Evidence[],
  doubt = 0,
  wrong = 0,
): Float64Array {
  const g = model.groups[group]!;
  const { code, place, read, settle } = setsMachine();
  const out = new Float64Array(g.classes.sets.length).fill(1);
  const size = out.length;
  const lists: Float64Array[] = [out];
  for (const { question } of answers) {
    const table = g.table(question);
    settle(table);
    lists.push(table);
  }
  const placed = place(lists);
  const to = placed[0]!;
  for (let i = 0; i < answers.length; i++) {
    const { question, answer, sure, share, floor } = answers[i]!;
    const from = placed[i + 1]!;
    const m = model.rules.questions[question]!.answers.length;
    if (share === undefined) code.timesColumn(to, size, from, answer, m, sure, floor ?? (1 - sure) / m);
    else code.timesShare(to, size, from, answer, m, sure, (1 - sure) / m, share);
  }
  if (doubt > 0) code.mix(to, size, 1 - doubt, doubt * wrong);
  out.set(read(to, size));
  return out;
}

/** ½·L_front(its own + either)·L_rear(its own) + ½·L_front(its own)·L_rear(its own + either); see `joint.ts`. */
function jointFactor(model: Model, joint: Joint, answers: readonly Evidence[]): Float64Array {
  const { rules, groupOf } = model;
  const of = (group: number): Evidence[] => answers.filter((e) => groupOf[e.question] === group);
  const likelihood = (group: number, end: 0 | 1, told: boolean): Float64Array | undefined => {
    const either = told ? answers.filter((e) => rules.questions[e.question]!.either !== undefined) : [];
    const all = [
      ...of(group),
      ...either.map((e) => ({ ...e, question: rules.questions[e.question]!.either![end] })),
    ].sort((a, b) => a.question - b.question);
    return all.length === 0 ? undefined : groupFactor(model, group, all);
  };
  const { front, rear, frontOf, rearOf } = joint;
  const here = [likelihood(front, 0, true), likelihood(rear, 1, false)] as const;
  const there = [likelihood(front, 0, false), likelihood(rear, 1, true)] as const;
  const f = frontOf();
  const r = rearOf();
  const out = new Float64Array(f.length);
  for (let c = 0; c < out.length; c++) {
    out[c] =
      0.5 * (here[0]?.[f[c]!] ?? 1) * (here[1]?.[r[c]!] ?? 1) +
      0.5 * (there[0]?.[f[c]!] ?? 1) * (there[1]?.[r[c]!] ?? 1);
  }
  return out;
}

/**
 * The exact posterior.
 * @param prior weights of every set, any scale
 * @param weights where the posterior goes; a batch hands in the same array again, because a new one a case costs more
 *   than the arithmetic
 * @param causes the same for the causes
 * @throws ImpossibleEvidence
 */
export function update(
  model: Model,
  prior: Float64Array,
  evidence: readonly Evidence[],
  weights = new Float64Array(model.space.size),
  causes = new Float64Array(model.space.causes),
): Belief {
  const factors = [...byGroup(model, evidence)].map(([g, answers]) => factorOf(model, g, answers));
  const logTotal = model.weigh(prior, factors, weights, causes);
  if (!(logTotal > -Infinity)) throw new ImpossibleEvidence();
  return { weights, causes, nothing: weights[0]!, logEvidence: logTotal - Math.log(massOf(prior)) };
}

/** A group's factor; for one sure answer it is the same for every rider, so it is kept. */
export function factorOf(model: Model, group: number, answers: readonly Evidence[]): GroupFactor {
  const only = answers[0]!;
  if (answers.length > 1 || only.sure !== 1 || only.share !== undefined)
    return { group, factor: groupFactor(model, group, answers) };
  const ofQuestion = (model.folded[only.question] ??= []);
  return (ofQuestion[only.answer] ??= { group, factor: groupFactor(model, group, answers), kept: true });
}

const masses = new WeakMap<Float64Array, number>();

function massOf(prior: Float64Array): number {
  let mass = masses.get(prior);
  if (mass === undefined) {
    mass = prior.reduce((sum, w) => sum + w, 0);
    masses.set(prior, mass);
  }
  return mass;
}
