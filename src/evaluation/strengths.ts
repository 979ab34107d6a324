/**
 * The strengths of the rules, one by one: how often a cause makes a rider notice a sign (a link), and how often the
 * sign is noticed with nothing off (a base rate). A rule written for both ends is one strength, because it is one word.
 */
import type { Spot } from '../casework/what-if/moved.ts';
import type { CompiledRules, Question } from '../rulebase/compiled.ts';

export interface Strength {
  /** readable and unique: `repeated-hits.trend worse {end}.spring.too-soft`, or `… usually` for a base rate */
  readonly id: string;
  /** the word's probability */
  readonly value: number;
  /** one an end */
  readonly spots: readonly Spot[];
}

/**
 * All strengths, in the order of the rule base. A base rate of zero stands for "only with several signs", not a word.
 * @param of the questions looked at; both ends of one, or neither
 */
export function strengthsOf(
  rules: CompiledRules,
  of: (question: Question) => boolean = () => true,
): Strength[] {
  const found = new Map<string, { value: number; spots: Spot[]; id: string }>();
  rules.questions.forEach((q, question) => {
    if (!of(q)) return;
    const name = q.id.replace(/@(front|rear)$/, '');
    const add = (answer: number, cause: number, value: number): void => {
      const what = cause < 0 ? 'usually' : mirrored(rules.causes[cause]!.id, q.end);
      const id = `${name} ${q.answers[answer]!.id} ${what}`;
      // Both ends of one entry stand at the same place and say the same word; anything else is a rule of its own.
      const key = `${q.at} ${id} ${value}`;
      const known = found.get(key);
      if (known === undefined) found.set(key, { id, value, spots: [{ question, answer, cause }] });
      else known.spots.push({ question, answer, cause });
    };
    q.base.forEach((value, answer) => value > 0 && add(answer, -1, value));
    for (const [cause, answer, value] of q.links) add(answer, cause, value);
  });
  return [...found.values()];
}

/** A cause as a rule for both ends names it: {end} for the question's own, {other} for the other. */
export function mirrored(cause: string, end: Question['end']): string {
  if (end === undefined) return cause;
  return cause.replace(/^(front|rear)(?=\.)/, (of) => (of === end ? '{end}' : '{other}'));
}

/** The question with the strengths at some spots replaced by `value`. */
export function withValue(question: Question, spots: readonly Spot[], value: number): Question {
  const base = spots.some(({ cause }) => cause < 0) ? [...question.base] : question.base;
  const links = [...question.links];
  for (let i = 0; i < spots.length; i++) {
    const { cause, answer } = spots[i]!;
    if (cause < 0) (base as number[])[answer] = value;
    else putLinks(links, cause, answer, value);
  }
  return { ...question, base, links };
}

/** A loop by itself, as are others that run for every strength, so that no more is compiled with it. */
function putLinks(links: Question['links'][number][], cause: number, answer: number, value: number): void {
  for (let i = 0; i < links.length; i++) {
    const link = links[i]!;
    if (link[0] === cause && link[1] === answer) links[i] = [cause, answer, value];
  }
}
