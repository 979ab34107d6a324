/** One answer's chances done the slow way, sharing no code with src/diagnosis. */
import type { Question } from '../../src/rulebase/compiled.ts';

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
