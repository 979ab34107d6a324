/** Which open question would tell most, in bits: I(q) = H(A_q) − Σ_h P(h)·H(A_q | h). */
import { byGroup, groupLikelihood, type Evidence } from './belief.ts';
import { classProbabilities, type Posterior } from './overlap.ts';
import type { Group } from './groups.ts';
import type { Model } from './model.ts';

export interface Gain {
  readonly question: number;
  readonly bits: number;
  /** gain per minute of the rider's time, with the bonus for staying on the topic */
  readonly worth: number;
}

/**
 * The expected information of every open question, in the order of the rule base.
 * @param open indices of the questions that may be asked now
 */
export function gains(
  model: Model,
  posterior: Posterior,
  evidence: readonly Evidence[],
  open: readonly number[],
): { question: number; bits: number }[] {
  const answered = byGroup(model, evidence);
  const wanted = new Map<number, number[]>();
  for (const q of open) {
    const g = model.groupOf[q]!;
    const list = wanted.get(g);
    if (list === undefined) wanted.set(g, [q]);
    else list.push(q);
  }
  const out: { question: number; bits: number }[] = [];
  for (const [g, questions] of wanted) {
    const group = model.groups[g]!;
    const classWeights = classProbabilities(model, group, posterior);
    const trust = trustOf(model, g, answered.get(g) ?? []);
    for (const question of questions) {
      const m = model.rules.questions[question]!.answers.length;
      out.push({ question, bits: gainOf(group, question, m, classWeights, trust) });
    }
  }
  return out.sort((a, b) => a.question - b.question);
}

/** Probability, for each class, that the group's impression can be trusted after what was answered; one number when all alike. */
function trustOf(model: Model, g: number, answers: readonly Evidence[]): Float64Array | number {
  const d = model.groups[g]!.doubt;
  if (answers.length === 0) return 1 - d;
  const { trusted, wrong } = groupLikelihood(model, g, answers);
  for (let c = 0; c < trusted.length; c++) {
    const right = (1 - d) * trusted[c]!;
    const total = right + d * wrong;
    trusted[c] = total > 0 ? right / total : 0;
  }
  return trusted;
}

interface Fresh {
  readonly trust: number;
  /** entropy of the answer given each class, bits */
  readonly entropy: Float64Array;
}
const fresh = new WeakMap<Float64Array, Fresh>();

function gainOf(
  group: Group,
  question: number,
  m: number,
  classWeights: Float64Array,
  trust: Float64Array | number,
): number {
  const table = group.table(question);
  const total = new Float64Array(m);
  let conditional = 0;
  let mass = 0;
  if (typeof trust === 'number') {
    // Nothing of this group was answered: the entropies are the same for every rider, so they are kept.
    let kept = fresh.get(table);
    if (kept === undefined || kept.trust !== trust) {
      kept = { trust, entropy: entropies(table, m, trust) };
      fresh.set(table, kept);
    }
    for (let c = 0, at = 0; c < classWeights.length; c++, at += m) {
      const w = classWeights[c]!;
      if (w === 0) continue;
      mass += w;
      conditional += w * kept.entropy[c]!;
      for (let a = 0; a < m; a++) total[a]! += w * table[at + a]!;
    }
    for (let a = 0; a < m; a++) total[a] = trust * (total[a]! / mass) + (1 - trust) / m;
  } else {
    for (let c = 0, at = 0; c < classWeights.length; c++, at += m) {
      const w = classWeights[c]!;
      if (w === 0) continue;
      const t = trust[c]!;
      mass += w;
      for (let a = 0; a < m; a++) {
        const p = t * table[at + a]! + (1 - t) / m;
        total[a]! += w * p;
        if (p > 0) conditional -= w * p * Math.log2(p);
      }
    }
    for (let a = 0; a < m; a++) total[a]! /= mass;
  }
  return Math.max(0, entropy(total) - conditional / mass);
}

function entropies(table: Float64Array, m: number, trust: number): Float64Array {
  const out = new Float64Array(table.length / m);
  for (let c = 0, at = 0; c < out.length; c++, at += m) {
    let h = 0;
    for (let a = 0; a < m; a++) {
      const p = trust * table[at + a]! + (1 - trust) / m;
      if (p > 0) h -= p * Math.log2(p);
    }
    out[c] = h;
  }
  return out;
}

/** Shannon entropy in bits of a distribution that adds up to 1. */
export function entropy(distribution: Float64Array | readonly number[]): number {
  let h = 0;
  for (const p of distribution) if (p > 0) h -= p * Math.log2(p);
  return h;
}

/**
 * The next question: safety questions first, then the most bits a minute, staying on the topic where it is close.
 * Ties go to the earlier question of the rule base, so the same answers always make the same interview.
 */
export function rank(
  model: Model,
  candidates: readonly { question: number; bits: number }[],
  lastTopic: string | undefined,
): Gain[] {
  const { 'minutes-floor': floor, 'topic-bonus': bonus } = model.rules.numbers.asking;
  const scored = candidates.map(({ question, bits }) => {
    const q = model.rules.questions[question]!;
    return { question, bits, worth: (bits / (q.minutes + floor)) * (q.topic === lastTopic ? bonus : 1) };
  });
  // Rounded, so that what is equal but for the last bits of a sum is decided by the order of the rules.
  const safety = (g: Gain): number => (model.rules.questions[g.question]!.safety ? 0 : 1);
  const worth = (g: Gain): number => (safety(g) === 0 ? 0 : Math.round(g.worth * 1e9));
  return scored.sort((a, b) => safety(a) - safety(b) || worth(b) - worth(a) || a.question - b.question);
}
