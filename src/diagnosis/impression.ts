/**
 * One impression told throughout: a rider whose bike is "harsh" whatever he is asked about.
 *
 * It stands beside all sets of causes and beside "none of these", with a prior of its own (`numbers.one-impression`).
 * Under it a story is drawn, one of the signs of one broad question, each alike; every remembered or ridden answer follows
 * it with `bound`: then the sign that points most to what the story points to comes as often as with the strongest of those
 * causes, so that a sign alone speaks no more for the story than for a cause. What does not follow, and what the stand
 * shows, is as under "none of these". So a sign that breaks the story, a sign denied that belongs to it, and a finding in
 * the stand all speak against it.
 */
import type { Evidence } from './belief.ts';
import type { Model } from './model.ts';
import { chancesOfNone } from './none.ts';
import type { Question } from '../rulebase/compiled.ts';

/** A cause that the broad sign hardly shows is no part of its story. */
const LEAST_LINK = 0.2;
/** A sign that shares less with the story, strength times strength over their causes, does not follow it. */
const LEAST_SHARED = 0.05;

/** ln P(answers | one impression throughout); -Infinity where the rules have no such story. */
export function logEvidenceOfImpression(model: Model, evidence: readonly Evidence[]): number {
  const { questions, numbers } = model.rules;
  const { of } = numbers['one-impression'];
  const broad = model.questionIndex.get(of);
  if (broad === undefined) return -Infinity;
  const stories = questions[broad]!.answers.length;
  const p = new Float64Array(stories).fill(1 / (stories - 1));
  p[questions[broad]!.default] = 0;
  for (const { question, answer, sure, share = 1 } of evidence) {
    const right = underStories(model, broad, question);
    const unsure = (1 - sure) / questions[question]!.answers.length;
    times(p, right, answer * stories, { sure, unsure, share });
  }
  return Math.log(p.reduce((sum, x) => sum + x, 0));
}

/** A loop by itself, so that no more is compiled where it is found worth it. */
function times(
  p: Float64Array,
  right: Float64Array,
  at: number,
  { sure, unsure, share }: { readonly sure: number; readonly unsure: number; readonly share: number },
): void {
  for (let s = 0; s < p.length; s++) {
    const told = sure * right[at + s]! + unsure;
    p[s]! *= share === 1 ? told : told ** share;
  }
}

/** For each sign of the broad question, the chances of another's answers when it follows, or undefined where it cannot. */
type Told = readonly (Float64Array | undefined)[];

interface Kept {
  readonly broad: Question;
  readonly numbers: Model['rules']['numbers'];
  readonly right: Float64Array;
}
const kept = new WeakMap<Question, Kept>();

/** [answer × story] P(answer | the story is told throughout), of a rider who is sure. */
function underStories(model: Model, broad: number, index: number): Float64Array {
  const { rules } = model;
  const question = rules.questions[index]!;
  const leading = rules.questions[broad]!;
  const asked = question.either === undefined ? question : rules.questions[question.either[0]]!;
  const known = kept.get(asked);
  if (known?.broad === leading && known.numbers === rules.numbers) return known.right;
  const { bound } = rules.numbers['one-impression'];
  const chances = chancesOfNone(model, index);
  const told: Told =
    asked.how === 'stand'
      ? []
      : asked === leading
        ? ownStories(leading)
        : following(leading, storyCauses(leading, rules.causes.length), asked);
  const stories = leading.answers.length;
  const right = new Float64Array(chances.length * stories);
  for (let a = 0; a < chances.length; a++)
    for (let s = 0; s < stories; s++)
      right[a * stories + s] =
        told[s] === undefined ? chances[a]! : bound * told[s]![a]! + (1 - bound) * chances[a]!;
  kept.set(asked, { broad: leading, numbers: rules.numbers, right });
  return right;
}

/** The broad question itself: each story's sign as often as with the strongest of its causes. */
function ownStories(leading: Question): Told {
  const m = leading.answers.length;
  const most = new Float64Array(m);
  for (const [, answer, strength] of leading.links) most[answer] = Math.max(most[answer]!, strength);
  return leading.answers.map((_, story) => {
    if (story === leading.default) return undefined;
    const out = new Float64Array(m).fill((1 - most[story]!) / (m - 1));
    out[story] = most[story]!;
    return out;
  });
}

const keptCauses = new WeakMap<Question, Float64Array>();

/** [cause × story] what each cause has to do with each story; 0 where it is no part of it. */
function storyCauses(leading: Question, causes: number): Float64Array {
  let shares = keptCauses.get(leading);
  if (shares === undefined) {
    const stories = leading.answers.length;
    shares = new Float64Array(causes * stories);
    for (const [cause, answer, strength] of leading.links)
      shares[cause * stories + answer] = strength < LEAST_LINK ? 0 : strength;
    keptCauses.set(leading, shares);
  }
  return shares;
}

/**
 * For each story the chances of a question's answers when it follows; undefined where it has no sign for it. All stories in
 * one walk over its links, because a rule pack is looked at under hundreds of other strengths.
 */
function following(leading: Question, shares: Float64Array, question: Question): Told {
  const stories = leading.answers.length;
  const m = question.answers.length;
  const shared = new Float64Array(stories * m);
  const link = new Float64Array(stories * m);
  for (const [cause, answer, strength] of question.links)
    for (let s = 0; s < stories; s++) {
      const w = shares[cause * stories + s]!;
      if (w === 0) continue;
      const at = s * m + answer;
      shared[at]! += strength * w;
      if (strength > link[at]!) link[at] = strength;
    }
  return leading.answers.map((_, s) => {
    if (s === leading.default) return undefined;
    let best = -1;
    let most = LEAST_SHARED;
    for (let a = 0; a < m; a++)
      if (shared[s * m + a]! > most) {
        most = shared[s * m + a]!;
        best = a;
      }
    if (best < 0) return undefined;
    const strongest = link[s * m + best]!;
    const out = new Float64Array(m).fill((1 - strongest) / (m - 1));
    out[best] = strongest;
    return out;
  });
}
