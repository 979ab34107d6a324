/** Which open question would tell most, in bits: I(q) = H(A_q) − Σ_h P(h)·H(A_q | h). */
import { byGroup, groupFactor, groupLikelihood, wrongly, type Evidence } from './belief.ts';
import type { Group } from './groups.ts';
import type { Model } from './model.ts';
import { classProbabilities, means, turned, type Posterior } from './fast/class-marginals.ts';
import { sums } from './fast/column-sums.ts';

/** What an open question tells, and how likely each of its answers is. */
export interface Open {
  readonly question: number;
  readonly bits: number;
  readonly chances: readonly number[];
}

export interface Gain extends Open {
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
): Open[] {
  const answered = byGroup(model, evidence);
  const exactly = new Map<number, Float64Array>();
  return open.map((question) => {
    const own = model.groupOf[question]!;
    const joint = model.jointOf[own]!;
    const g = joint >= 0 && answered.has(joint) ? joint : own;
    const group = model.groups[g]!;
    const m = model.rules.questions[question]!.answers.length;
    const answers = answered.get(g);
    if (answers === undefined)
      return openOf(question, means(group, posterior, fresh(model, group, posterior, question), m + 1));
    let weights = exactly.get(g);
    if (weights === undefined) {
      weights = classProbabilities(group, posterior);
      exactly.set(g, weights);
    }
    const columns = (group.joint === undefined ? trusting : joining)(model, g, question, answers);
    return openOf(question, sums(weights, columns, m + 1));
  });
}

/** @param all the mean of P(answer | class) for each answer, and last that of H(answer | class) */
function openOf(question: number, all: readonly number[]): Open {
  const chances = all.slice(0, -1);
  let h = -all.at(-1)!;
  for (const p of chances) if (p > 0) h -= p * Math.log2(p);
  return { question, bits: Math.max(0, h), chances };
}

const kept = new WeakMap<object, { readonly trust: number; readonly columns: Float64Array }>();

/** Where nothing of the group was answered, the columns are the same for every rider, so they are kept, turned. */
export function fresh(
  { rules }: Model,
  group: Group,
  posterior: Pick<Posterior, 'weights'>,
  question: number,
): Float64Array {
  const mark = group.mark(question);
  const trust = 1 - group.doubt;
  const known = kept.get(mark);
  if (known !== undefined && known.trust === trust) return known.columns;
  const { id, answers } = rules.questions[question]!;
  const { columns } = group.keep(`fresh/${id}/${trust}`, () => {
    const table = group.table(question);
    const m = answers.length;
    const size = table.length / m;
    const made = columnsOf(table, new Float64Array(size).fill(trust), new Float64Array(m).fill(1 / m));
    for (let k = 0; k <= m; k++) {
      const column = made.subarray(k * size, (k + 1) * size);
      column.set(turned(group, posterior, column));
    }
    return { columns: made };
  });
  kept.set(mark, { trust, columns });
  return columns;
}

/** With answers of the group, the impression is trusted as far as these bear it out, which depends on the class. */
function trusting(model: Model, g: number, question: number, answers: readonly Evidence[]): Float64Array {
  const d = model.groups[g]!.doubt;
  const { trusted, wrong } = groupLikelihood(model, g, answers);
  for (let c = 0; c < trusted.length; c++) {
    const right = (1 - d) * trusted[c]!;
    const total = right + d * wrong;
    trusted[c] = total > 0 ? right / total : 0;
  }
  const told = model.rules.questions[question]!.answers.map(
    (_, answer) => wrongly(model, g, [...answers, { question, answer, sure: 1 }]) / wrong,
  );
  return columnsOf(model.groups[g]!.table(question), trusted, Float64Array.from(told));
}

/** The same where an end is not known: the chance of each answer is what it makes of the likelihood of those before. */
function joining(model: Model, g: number, question: number, answers: readonly Evidence[]): Float64Array {
  const before = groupFactor(model, g, answers);
  const m = model.rules.questions[question]!.answers.length;
  const size = before.length;
  const out = new Float64Array(size * (m + 1));
  for (let answer = 0; answer < m; answer++) {
    const then = groupFactor(model, g, [...answers, { question, answer, sure: 1 }]);
    for (let c = 0; c < size; c++) {
      const p = before[c]! > 0 ? then[c]! / before[c]! : 0;
      out[answer * size + c] = p;
      if (p > 0) out[m * size + c]! -= p * Math.log2(p);
    }
  }
  return out;
}

/**
 * [column × class]: P(answer | class) for each answer, then the entropy of the answer in each class, bits.
 * @param trust in the impression, a class each
 * @param wrong P(answer | the impression is wrong)
 */
function columnsOf(table: Float64Array, trust: Float64Array, wrong: Float64Array): Float64Array {
  const m = wrong.length;
  const size = trust.length;
  const out = new Float64Array(size * (m + 1));
  for (let c = 0, at = 0; c < size; c++, at += m) {
    const t = trust[c]!;
    let h = 0;
    for (let a = 0; a < m; a++) {
      const p = t * table[at + a]! + (1 - t) * wrong[a]!;
      out[a * size + c] = p;
      if (p > 0) h -= p * Math.log2(p);
    }
    out[m * size + c] = h;
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
export function rank(model: Model, candidates: readonly Open[], lastTopic: string | undefined): Gain[] {
  const { 'minutes-floor': floor, 'topic-bonus': bonus } = model.rules.numbers.asking;
  const scored = candidates.map(({ question, bits, chances }) => {
    const q = model.rules.questions[question]!;
    const worth = (bits / (q.minutes + floor)) * (q.topic === lastTopic ? bonus : 1);
    // Rounded, so that what is equal but for the last bits of a sum is decided by the order of the rules.
    return { gain: { question, bits, chances, worth }, key: q.safety ? Infinity : Math.round(worth * 1e9) };
  });
  scored.sort((a, b) => (a.key === b.key ? a.gain.question - b.gain.question : b.key - a.key));
  return scored.map((s) => s.gain);
}
