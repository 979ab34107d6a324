/**
 * What a rider says of a topic whose whole impression is wrong.
 *
 * Such answers have nothing to do with the bike, but much with each other: one who believes wrongly that the fork dives
 * tells it three times when asked in three ways. Taken for independent, three answers that agree would look like proof
 * that the impression is right. So a wrong impression is one story, drawn at random: each question has the answer that
 * fits it, each answer fits equally many stories, and answers fit the same stories where they point to the same causes.
 */
import type { Question } from '../rulebase/compiled.ts';

/** For each question of a group, the answer that fits each story; undefined where it shares no story with the others. */
export type Stories = ReadonlyMap<number, Uint8Array | undefined>;

/** What is answered to one question under a wrong impression. */
export interface ToldWrongly {
  /** the answer that fits each story */
  readonly fits: Uint8Array | undefined;
  /** the answer, or the several that were given */
  readonly given: readonly number[];
  /** how many answers the question has */
  readonly answers: number;
  /** how far an answer follows the story, 0..1; for the rest it is any answer, alike */
  readonly bound: number;
  /** how many answers those given count as: 1 for one; one of several follows the story, what is beyond is any, alike */
  readonly counts: number;
  /** of one answer alone: its chance where it does not follow; absent: any answer, alike */
  readonly rest?: number;
}

/** @param indices the questions of one group, by index into `questions` */
export function storiesOf(questions: readonly Question[], indices: readonly number[]): Stories {
  const lead = indices.reduce((a, b) =>
    questions[b]!.answers.length > questions[a]!.answers.length ? b : a,
  );
  const count = indices.map((i) => questions[i]!.answers.length).reduce(leastCommonMultiple);
  const leading = questions[lead]!;
  const told = evenly(leading.answers.length, count);
  const out = new Map<number, Uint8Array | undefined>();
  for (const i of indices) out.set(i, i === lead ? told : fitting(questions[i]!, leading, told));
  return out;
}

/** P(these answers | the impression is wrong): the mean over all stories, so that a single answer is any, alike. */
export function chanceOfStory(answers: readonly ToldWrongly[]): number {
  const stories = answers.find((a) => a.fits !== undefined)?.fits?.length ?? 1;
  let sum = 0;
  for (let s = 0; s < stories; s++) {
    let p = 1;
    for (const { fits, given, answers: m, bound, counts, rest } of answers) {
      if (rest !== undefined) {
        p *= fits === undefined ? bound / m + rest : (fits[s] === given[0] ? bound : 0) + rest;
        continue;
      }
      const follows = fits === undefined ? 1 / m : follow(fits[s]!, given, bound, m);
      p *= counts === 1 ? follows : follows ** Math.min(1, counts) * m ** -Math.max(0, counts - 1);
    }
    sum += p;
  }
  return sum / stories;
}

/** One of those given, each alike, under a story that this answer fits. */
function follow(fitting: number, given: readonly number[], bound: number, m: number): number {
  const hit = given.includes(fitting) ? 1 / given.length : 0;
  return hit * bound + (1 - bound) / m;
}

/** Each of `answers` in turn for an equal share of the stories. */
function evenly(answers: number, stories: number): Uint8Array {
  return Uint8Array.from({ length: stories }, (_, s) => Math.floor((s * answers) / stories));
}

/**
 * Deals the stories out to a question's answers, equally many each: to a sign those of the leading question's sign that
 * it shares most causes with, to the default first those that the question has no word for.
 */
function fitting(question: Question, leading: Question, told: Uint8Array): Uint8Array | undefined {
  const partner = question.answers.map((_, a) => nearest(question, a, leading));
  if (partner.every((p) => p === undefined)) return undefined;
  const share = told.length / question.answers.length;
  const left = question.answers.map(() => share);
  const out = new Uint8Array(told.length);
  const dealt = new Uint8Array(told.length);
  const deal = (answer: number, wanted: (toldBy: number) => boolean): void => {
    for (let s = 0; s < told.length && left[answer]! > 0; s++) {
      if (dealt[s] === 1 || !wanted(told[s]!)) continue;
      out[s] = answer;
      dealt[s] = 1;
      left[answer]!--;
    }
  };
  partner.forEach((p, a) => p !== undefined && deal(a, (by) => by === p));
  const partners = new Set(partner);
  deal(question.default, (by) => by !== leading.default && !partners.has(by));
  deal(question.default, (by) => by === leading.default);
  partner.forEach((_, a) => deal(a, () => true));
  return out;
}

/** The sign of the leading question that shares most causes with a sign, the first of equals; undefined for none. */
function nearest(question: Question, answer: number, leading: Question): number | undefined {
  const own = new Set(causesOf(question, answer));
  let best: number | undefined;
  let most = 0;
  leading.answers.forEach((_, a) => {
    const shared = causesOf(leading, a).filter((c) => own.has(c)).length;
    if (shared > most) {
      most = shared;
      best = a;
    }
  });
  return best;
}

function causesOf(question: Question, answer: number): number[] {
  return question.links.filter(([, a]) => a === answer).map(([cause]) => cause);
}

function leastCommonMultiple(a: number, b: number): number {
  let [x, y] = [a, b];
  while (y > 0) [x, y] = [y, x % y];
  return (a / x) * b;
}
