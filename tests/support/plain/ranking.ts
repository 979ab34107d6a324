/**
 * The next question as it is written down: how many bits an answer is expected to tell about the sets, a minute. It says what
 * `src/diagnosis/inquiry.ts` must come to, which works from class probabilities instead and never thinks an answer through.
 */
import type { Evidence } from '../../../src/diagnosis/belief.ts';
import type { CompiledRules } from '../../../src/rulebase/compiled.ts';
import { plainPosterior } from './posterior.ts';

const entropy = (all: readonly number[]): number =>
  all.reduce((h, p) => (p > 0 ? h - p * Math.log2(p) : h), 0);

/** I(q) = H(sets) − Σ_a P(a)·H(sets | a), over the answers a that the rider may give, surely. */
export function plainGain(
  rules: CompiledRules,
  evidence: readonly Evidence[],
  question: number,
  doubt?: number,
): number {
  const now = plainPosterior(rules, evidence, doubt);
  let left = 0;
  rules.questions[question]!.answers.forEach((_, answer) => {
    const then = plainPosterior(rules, [...evidence, { question, answer, sure: 1 }], doubt);
    left += (then.evidence / now.evidence) * entropy(then.sets.map((s) => s.p));
  });
  return entropy(now.sets.map((s) => s.p)) - left;
}

/**
 * Questions by falling worth: safety first, then bits a minute, the last topic with its bonus.
 * @param open indices of the questions that may be asked now
 */
export function plainRanking(
  rules: CompiledRules,
  evidence: readonly Evidence[],
  open: readonly number[],
  { lastTopic, doubt }: { readonly lastTopic?: string; readonly doubt?: number } = {},
): number[] {
  const { 'minutes-floor': floor, 'topic-bonus': bonus } = rules.numbers.asking;
  const worth = open.map((question) => {
    const q = rules.questions[question]!;
    const bits = plainGain(rules, evidence, question, doubt);
    return q.safety ? Infinity : (bits / (q.minutes + floor)) * (q.topic === lastTopic ? bonus : 1);
  });
  return open
    .map((question, i) => ({ question, worth: worth[i]! }))
    .sort((a, b) => (a.worth === b.worth ? a.question - b.question : b.worth - a.worth))
    .map(({ question }) => question);
}
