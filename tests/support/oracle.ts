/**
 * The same model, done the slow way: every combination of causes as a set, every joint outcome written out, one trust
 * variable a group summed over, and one for the story that a wrong impression tells. It shares no code with
 * src/diagnosis but for which answer fits which story, which is a definition and has tests of its own.
 */
import { storiesOf } from '../../src/diagnosis/correlated-errors.ts';
import type { CompiledRules, Question } from '../../src/rulebase/compiled.ts';

export interface OracleAnswer {
  readonly question: number;
  readonly answer: number;
  readonly sure: number;
}

export interface OracleBelief {
  readonly causes: number[];
  readonly nothing: number;
  readonly evidence: number;
}

/** All allowed sets of causes with their unnormalised prior. */
export function oracleSets(rules: CompiledRules): { set: Set<number>; weight: number }[] {
  const n = rules.causes.length;
  const out: { set: Set<number>; weight: number }[] = [];
  for (let bits = 0; bits < 2 ** n; bits++) {
    const set = new Set<number>();
    for (let i = 0; i < n; i++) if (Math.floor(bits / 2 ** i) % 2 === 1) set.add(i);
    if (set.size > rules.numbers['causes-at-once']) continue;
    const settings = [...set].map((i) => rules.causes[i]!.setting);
    if (new Set(settings).size < settings.length) continue;
    const beside = rules.numbers['at-once-beside'];
    if (beside !== undefined && settings.some((s) => set.size > (beside[rules.settings[s]!.kind] ?? n)))
      continue;
    let weight = 1;
    for (const i of set) weight *= rules.causes[i]!.prior / (1 - rules.causes[i]!.prior);
    out.push({ set, weight });
  }
  return out;
}

/** P(answer | set), by walking every way the rider may notice signs, one coin a cause and one a base rate. */
export function oracleAnswer(question: Question, set: ReadonlySet<number>): number[] {
  const m = question.answers.length;
  const out = Array.from({ length: m }, () => 0);
  const coins: { answer: number; p: number }[] = [];
  for (let a = 0; a < m; a++) if (a !== question.default) coins.push({ answer: a, p: question.base[a]! });
  for (const [cause, answer, p] of question.links) if (set.has(cause)) coins.push({ answer, p });
  const toss = (i: number, p: number, seen: readonly number[]): void => {
    if (i < coins.length) {
      const coin = coins[i]!;
      toss(i + 1, p * (1 - coin.p), seen);
      toss(i + 1, p * coin.p, seen.includes(coin.answer) ? seen : [...seen, coin.answer]);
      return;
    }
    if (seen.length === 0) out[question.default]! += p;
    else if (seen.length === 1) out[seen[0]!]! += p;
    else if (question.several === 'cancel') out[question.default]! += p;
    else if (question.several === 'any') for (const a of seen) out[a]! += p / seen.length;
    else out[question.several]! += p;
  };
  toss(0, 1, []);
  return out;
}

/** P(the group's answers | its impression is wrong), story by story. */
function oracleWrong(rules: CompiledRules, group: string, evidence: readonly OracleAnswer[]): number {
  const indices = rules.questions.flatMap((q, i) => (q.group === group ? [i] : []));
  const stories = storiesOf(rules.questions, indices);
  const count = Math.max(1, ...[...stories.values()].map((s) => s?.length ?? 1));
  let mean = 0;
  for (let story = 0; story < count; story++) {
    let p = 1 / count;
    for (const { question, answer, sure } of evidence) {
      if (!indices.includes(question)) continue;
      const q = rules.questions[question]!;
      const m = q.answers.length;
      const told = stories.get(question);
      const follows = told === undefined ? 0 : rules.numbers['one-story'][q.how];
      const anyhow = (1 - follows) / m + (told !== undefined && told[story] === answer ? follows : 0);
      p *= sure * anyhow + (1 - sure) / m;
    }
    mean += p;
  }
  return mean;
}

export function oraclePosterior(
  rules: CompiledRules,
  evidence: readonly OracleAnswer[],
  doubt: number | ((group: string) => number),
): OracleBelief & { weights: { set: Set<number>; p: number }[] } {
  const sets = oracleSets(rules);
  const groups = [...new Set(evidence.map((e) => rules.questions[e.question]!.group))];
  const wrongly = new Map(groups.map((group) => [group, oracleWrong(rules, group, evidence)]));
  const weighed = sets.map(({ set, weight }) => {
    let w = weight;
    for (const group of groups) {
      const d = typeof doubt === 'number' ? doubt : doubt(group);
      let trusted = 1 - d;
      const wrong = d * wrongly.get(group)!;
      for (const e of evidence) {
        const q = rules.questions[e.question]!;
        if (q.group !== group) continue;
        const m = q.answers.length;
        trusted *= e.sure * oracleAnswer(q, set)[e.answer]! + (1 - e.sure) / m;
      }
      w *= trusted + wrong;
    }
    return { set, w };
  });
  const before = sets.reduce((s, x) => s + x.weight, 0);
  const total = weighed.reduce((s, x) => s + x.w, 0);
  return {
    causes: rules.causes.map((_, i) => weighed.reduce((s, x) => s + (x.set.has(i) ? x.w : 0), 0) / total),
    nothing: weighed.find((x) => x.set.size === 0)!.w / total,
    evidence: total / before,
    weights: weighed.map(({ set, w }) => ({ set, p: w / total })),
  };
}

/** I(q) from its definition, over the joint of sets and answers. */
export function oracleGain(
  rules: CompiledRules,
  evidence: readonly OracleAnswer[],
  question: number,
  doubt: number,
): number {
  const m = rules.questions[question]!.answers.length;
  const now = oraclePosterior(rules, evidence, doubt);
  const h = (p: readonly number[]): number => -p.reduce((s, x) => s + (x > 0 ? x * Math.log2(x) : 0), 0);
  const prior = h(now.weights.map((x) => x.p));
  let after = 0;
  for (let a = 0; a < m; a++) {
    const then = oraclePosterior(rules, [...evidence, { question, answer: a, sure: 1 }], doubt);
    const p = then.evidence / now.evidence;
    after += p * h(then.weights.map((x) => x.p));
  }
  return prior - after;
}
