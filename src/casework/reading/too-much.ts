/** A record no rider's case comes near: refused before anything of it is worked out, so that one costs no more than another. */
import type { PathProblem } from '../../form/problem.ts';
import { isMap } from '../../form/plain-data.ts';

/** Rounds, and trials in all of them: a bike tried every weekend of a year. */
export const MOST_ROUNDS = 60;
export const MOST_RESULTS = 60;
/** In all rounds together: every question, many times over. */
const MOST_ANSWERS = 2000;
/** Of a map whose keys are few, and of a list of words. */
const MOST_KEYS = 100;
const MOST_WORDS = 1000;

const NOTHING: readonly PathProblem[] = [];

/** @returns what there is too much of, all at once */
export function tooMuch(raw: Readonly<Record<string, unknown>>): readonly PathProblem[] {
  const earlier: readonly unknown[] = Array.isArray(raw['earlier']) ? raw['earlier'] : [];
  const rounds = earlier.length === 0 ? [raw] : [raw, ...earlier.filter(isMap)];
  const sum = (of: (round: Readonly<Record<string, unknown>>) => number): number => {
    let all = 0;
    for (const round of rounds) all += of(round);
    return all;
  };
  const notes = isMap(raw['interview']) ? raw['interview'] : {};
  const found: readonly (readonly [string, number, number])[] = [
    ['earlier rounds', earlier.length, MOST_ROUNDS],
    ['results', sum(({ results }) => lengthOf(results)), MOST_RESULTS],
    ['answers', sum(({ answers }) => (isMap(answers) ? Object.keys(answers).length : 0)), MOST_ANSWERS],
    ['things tried', sum(({ tried }) => lengthOf(tried)), MOST_WORDS],
    ['topics', lengthOf(notes['about']), MOST_WORDS],
    ['keys', Object.keys(raw).length, MOST_KEYS],
  ];
  if (found.every(([, count, most]) => count <= most)) return NOTHING;
  return found
    .filter(([, count, most]) => count > most)
    .map(([what, count, most]) => ({
      path: [],
      severity: 'error',
      message: `The case has ${count} ${what}; the limit is ${most}.`,
      remedy: 'Check that it is the right file, or split it.',
    }));
}

function lengthOf(list: unknown): number {
  return Array.isArray(list) ? list.length : 0;
}
