/**
 * A rider who follows his complaint: some of his answers, remembered or ridden, are given in the sense of the sign that he
 * complained of, whatever the bike does.
 *
 * The complaint itself is told as by any rider, and what the stand shows is nobody's to tell. Every other answer is with
 * `numbers.following.share` the sign that shares most causes with the complaint, else what any rider says. How far a rider
 * is one of these, his answers say: P(follows | answers) ∝ `following.prior` · P(answers | follows), the causes summed out.
 * What is said of a change is the mean over both kinds of rider.
 */
import type { Belief, Evidence } from './belief.ts';
import { setsMachine } from './fast/sets-machine.ts';
import type { Model } from './model.ts';
import type { Question } from '../rulebase/compiled.ts';

/** The same answers as one tells them who follows his complaint; undefined where no other answer is in its sense. */
export function asFollowed(
  { rules, questionIndex }: Model,
  evidence: readonly Evidence[],
): Evidence[] | undefined {
  const { questions, numbers } = rules;
  const { prior, share } = numbers.following;
  const broad = questionIndex.get(numbers['one-impression'].of);
  const complaint = prior === 0 ? undefined : evidence.find((e) => e.question === broad);
  // Of several complaints none is the one that is followed.
  if (complaint?.share !== undefined || complaint === undefined) return undefined;
  const story = questions[complaint.question]!;
  if (complaint.answer === story.default) return undefined;
  let follows = false;
  const told = evidence.map((e): Evidence => {
    const sense =
      e === complaint || e.share !== undefined
        ? undefined
        : inTheSenseOf(story, complaint.answer, questions[e.question]!);
    if (sense === undefined) return e;
    follows ||= sense === e.answer;
    const { answers } = questions[e.question]!;
    const floor = (1 - e.sure) / answers.length + (sense === e.answer ? e.sure * share : 0);
    return { ...e, sure: e.sure * (1 - share), floor };
  });
  return follows ? told : undefined;
}

/** By the question; what was looked for so far of a story's signs. */
const senses = new WeakMap<
  Question,
  { readonly story: Question; readonly of: Map<number, number | undefined> }
>();

/** The sign that shares most causes with a sign of the story, the first of equals; undefined where none does. */
function inTheSenseOf(story: Question, sign: number, question: Question): number | undefined {
  if (question.how === 'stand' || question.safety || question.either !== undefined) return undefined;
  let known = senses.get(question);
  if (known?.story !== story) senses.set(question, (known = { story, of: new Map() }));
  if (!known.of.has(sign)) known.of.set(sign, sharing(causesOf(story, sign), question));
  return known.of.get(sign);
}

function sharing(causes: ReadonlySet<number>, question: Question): number | undefined {
  let best: number | undefined;
  let most = 0;
  question.answers.forEach((_, a) => {
    let shared = 0;
    for (const cause of causesOf(question, a)) if (causes.has(cause)) shared++;
    if (a !== question.default && shared > most) {
      most = shared;
      best = a;
    }
  });
  return best;
}

function causesOf({ links }: Question, sign: number): Set<number> {
  return new Set(links.flatMap(([cause, answer]) => (answer === sign ? [cause] : [])));
}

/** P(follows | answers), from ln P(answers) of either kind of rider. */
export function chanceFollowing({ rules }: Model, following: number, usual: number): number {
  const { prior } = rules.numbers.following;
  const odds = (prior / (1 - prior)) * Math.exp(following - usual);
  return odds / (1 + odds);
}

/** What is believed of a rider who follows with a chance. */
export function averageOf(usual: Belief, following: Belief, chance: number): Belief {
  const mean = (a: Float64Array, b: Float64Array): Float64Array => between(a, b, chance);
  return {
    weights: mean(usual.weights, following.weights),
    causes: mean(usual.causes, following.causes),
    nothing: (1 - chance) * usual.nothing + chance * following.nothing,
    logEvidence: usual.logEvidence,
  };
}

function between(a: Float64Array, b: Float64Array, chance: number): Float64Array {
  const { code, place, read } = setsMachine();
  const [one, other, out] = place([a, b], a.length);
  code.between(out, one, other, a.length, chance);
  return read(out, a.length).slice();
}
