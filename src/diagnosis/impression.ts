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
import { askedAt, chancesOfNone } from './none.ts';
import type { Question } from '../rulebase/compiled.ts';

/** A cause that the broad sign hardly shows is no part of its story. */
const LEAST_LINK = 0.2;
/** A sign that shares less with the story, strength times strength over their causes, does not follow it. */
const LEAST_SHARED = 0.05;

/** ln P(answers | one impression throughout); -Infinity where the rules have no such story. */
export function logEvidenceOfImpression(model: Model, evidence: readonly Evidence[]): number {
  const { questions, numbers } = model.rules;
  const broad = model.questionIndex.get(numbers['one-impression'].of);
  if (broad === undefined) return -Infinity;
  const leading = questions[broad]!;
  const p = storiesAtFirst(leading);
  for (const one of evidence)
    timesTold(p, one, {
      ...followedIn(model, leading, one.question),
      chances: chancesOfNone(model, one.question),
      bound: numbers['one-impression'].bound,
    });
  return Math.log(p.reduce((sum, x) => sum + x, 0));
}

/** The chance of each story before any answer: one for each sign of the broad question, each alike. */
export function storiesAtFirst({ answers, default: none }: Question): Float64Array {
  const p = new Float64Array(answers.length).fill(1 / (answers.length - 1));
  p[none] = 0;
  return p;
}

/** What follows each story of one question's answers. */
export interface Followed {
  /** the answer; -1 where the question has no sign for the story: then it is told as without one */
  readonly sign: Int16Array;
  /** how often it comes then; the other answers share the rest alike */
  readonly often: Float64Array;
}

export interface HowTold extends Followed {
  /** of each answer, without a story */
  readonly chances: Float64Array;
  /** how often an answer follows the story */
  readonly bound: number;
}

/** Multiplies the chance of each story by that of an answer. A loop by itself, so that no more is compiled with it. */
export function timesTold(p: Float64Array, told: Evidence, how: HowTold): void {
  for (let s = 0; s < p.length; s++) p[s]! *= chanceTold(s, told, how);
}

/** P(an answer | a story is told throughout). */
export function chanceTold(
  story: number,
  { answer, sure, share = 1 }: Evidence,
  { sign, often, chances, bound }: HowTold,
): number {
  const m = chances.length;
  const alone = chances[answer]!;
  const here = sign[story] === answer ? often[story]! : (1 - often[story]!) / (m - 1);
  const right = sign[story]! < 0 ? alone : bound * here + (1 - bound) * alone;
  const told = sure * right + (1 - sure) / m;
  return share === 1 ? told : told ** share;
}

interface Kept {
  readonly leading: Question;
  readonly followed: Followed;
}
const kept = new WeakMap<Question, Kept>();

/** What follows of a question of the model; kept. */
export function followedIn({ rules }: Model, leading: Question, index: number): Followed {
  const asked = rules.questions[askedAt(rules, index)]!;
  const known = kept.get(asked);
  if (known?.leading === leading) return known.followed;
  const followed = following(leading, partsOf(leading, rules.causes.length), asked);
  kept.set(asked, { leading, followed });
  return followed;
}

const keptParts = new WeakMap<Question, Float64Array>();

function partsOf(leading: Question, causes: number): Float64Array {
  let parts = keptParts.get(leading);
  if (parts === undefined) keptParts.set(leading, (parts = storyCauses(leading, causes)));
  return parts;
}

/** [story × cause] what each cause has to do with each story; 0 where it is no part of it. */
export function storyCauses({ answers, links }: Question, causes: number): Float64Array {
  const parts = new Float64Array(answers.length * causes);
  // Not taken apart by pattern: that goes by way of an iterator, and an engine takes long to compile it.
  for (let i = 0; i < links.length; i++) {
    const link = links[i]!;
    parts[link[1] * causes + link[0]] = storyPart(link[2]);
  }
  return parts;
}

/** What a cause has to do with a story that it shows with this strength. */
export function storyPart(strength: number): number {
  return strength < LEAST_LINK ? 0 : strength;
}

/** @param parts as `storyCauses` gives them of the broad question */
export function following(leading: Question, parts: Float64Array, asked: Question): Followed {
  const stories = leading.answers.length;
  const followed = { sign: new Int16Array(stories).fill(-1), often: new Float64Array(stories) };
  // What the stand shows follows nothing.
  if (asked.how === 'stand') return followed;
  if (asked === leading) return ownStories(leading, followed);
  for (let s = 0; s < stories; s++) followStory(leading, s, { parts, asked }, followed);
  return followed;
}

/** The broad question itself: each story's sign as often as with the strongest of its causes. Writes to all places. */
function ownStories({ links, default: none }: Question, { sign, often }: Followed): Followed {
  for (let s = 0; s < sign.length; s++) sign[s] = s === none ? -1 : s;
  often.fill(0);
  for (let i = 0; i < links.length; i++) {
    const link = links[i]!;
    if (link[2] > often[link[1]]!) often[link[1]] = link[2];
  }
  return { sign, often };
}

/** What each answer shares with a story, and its strongest link; made once, because hundreds of strengths are tried. */
let sharing = new Float64Array(64);

/** Another question, in one story: the sign that shares most with it. Writes to the place of the story. */
export function followStory(
  leading: Question,
  story: number,
  { parts, asked }: { readonly parts: Float64Array; readonly asked: Question },
  { sign, often }: Followed,
): void {
  if (story === leading.default) return;
  const from = (story * parts.length) / leading.answers.length;
  const m = asked.answers.length;
  if (sharing.length < 2 * m) sharing = new Float64Array(2 * m);
  const shared = sharing.fill(0, 0, 2 * m);
  const { links } = asked;
  for (let i = 0; i < links.length; i++) {
    const link = links[i]!;
    const part = parts[from + link[0]]!;
    if (part === 0) continue;
    const answer = link[1];
    shared[answer]! += link[2] * part;
    if (link[2] > shared[m + answer]!) shared[m + answer] = link[2];
  }
  let most = LEAST_SHARED;
  sign[story] = -1;
  for (let a = 0; a < m; a++)
    if (shared[a]! > most) {
      most = shared[a]!;
      sign[story] = a;
      often[story] = shared[m + a]!;
    }
}
