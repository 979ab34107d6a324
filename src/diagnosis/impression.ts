/**
 * One impression told throughout: a rider whose bike is "harsh" whatever he is asked about.
 *
 * It stands beside all sets of causes and beside "none of these", with a prior of its own (`numbers.one-impression`).
 * Under it a story is drawn, one of the signs of one broad question, each alike; every remembered or ridden answer follows
 * it with `bound`: it is the sign that points most to what the story points to. What does not follow, and what the stand
 * shows, is as under "none of these". So a sign that breaks the story, a sign denied that belongs to it, and a finding in
 * the stand all speak against it.
 */
import type { Evidence } from './belief.ts';
import type { Model } from './model.ts';
import { chancesOfNone } from './none.ts';
import type { Question } from '../rulebase/compiled.ts';

/** ln P(answers | one impression throughout); -Infinity where the rules have no such story. */
export function logEvidenceOfImpression(model: Model, evidence: readonly Evidence[]): number {
  const { questions, numbers } = model.rules;
  const { bound, of } = numbers['one-impression'];
  const broad = model.questionIndex.get(of);
  if (broad === undefined) return -Infinity;
  const stories = questions[broad]!.answers.length;
  const p = new Float64Array(stories).fill(1 / (stories - 1));
  p[questions[broad]!.default] = 0;
  for (const { question, answer, sure } of evidence) {
    const chances = chancesOfNone(model, question);
    const m = chances.length;
    const told = storiesTold(model, broad, question);
    for (let s = 0; s < stories; s++) {
      const follows = told === undefined || told[s]! < 0 ? 0 : bound;
      const right = follows * (told?.[s] === answer ? 1 : 0) + (1 - follows) * chances[answer]!;
      p[s]! *= sure * right + (1 - sure) / m;
    }
  }
  return Math.log(p.reduce((sum, x) => sum + x, 0));
}

const kept = new WeakMap<Question, { readonly broad: Question; readonly told: Int8Array | undefined }>();

/** For each sign of the broad question, the sign of another that follows it, or -1 where it has none. */
function storiesTold({ rules }: Model, broad: number, index: number): Int8Array | undefined {
  const question = rules.questions[index]!;
  const leading = rules.questions[broad]!;
  let known = kept.get(question);
  if (known?.broad !== leading) {
    const asked = question.either === undefined ? question : rules.questions[question.either[0]]!;
    known = {
      broad: leading,
      told:
        asked.how === 'stand'
          ? undefined
          : Int8Array.from(leading.answers, (_, s) => following(leading, s, asked)),
    };
    kept.set(question, known);
  }
  return known.told;
}

/** The sign that points most to what sign `story` points to; its own for the leading question. */
function following(leading: Question, story: number, question: Question): number {
  if (story === leading.default) return -1;
  if (question === leading) return story;
  const weight = new Map<number, number>();
  for (const [cause, answer, strength] of leading.links) if (answer === story) weight.set(cause, strength);
  const shared = new Float64Array(question.answers.length);
  for (const [cause, answer, strength] of question.links)
    shared[answer]! += strength * (weight.get(cause) ?? 0);
  let best = -1;
  let most = 0.05;
  shared.forEach((x, a) => {
    if (x > most) {
      most = x;
      best = a;
    }
  });
  return best;
}
