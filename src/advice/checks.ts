/**
 * What is looked at on the bike before much is claimed.
 *
 * A rider who tells one story in every topic convinces the engine of it, whatever the bike does, and no count of answers
 * gives that away. A look at the bike does: so nothing is claimed with `claim` or more before `checks` looks in the stand
 * that could speak against it, a gauge counting for all of them; and "nothing is off" rests on as many looks that found
 * nothing, unless the rider has noticed nothing either.
 */
import type { Belief, Evidence } from '../diagnosis/belief.ts';
import type { Model } from '../diagnosis/model.ts';
import type { Question } from '../rulebase/compiled.ts';

export interface Checks {
  /** whether what is claimed was looked at, or nothing so large is claimed */
  readonly done: boolean;
  /** whether a question is such a look */
  readonly wanted: (question: Question) => boolean;
}

/** @param none chance of something that the rules do not know */
export function checksOf(
  model: Model,
  belief: Pick<Belief, 'causes' | 'nothing'>,
  evidence: readonly Evidence[],
  none: number,
): Checks {
  const { causes, numbers } = model.rules;
  let leader = 0;
  for (let c = 1; c < belief.causes.length; c++) if (belief.causes[c]! > belief.causes[leader]!) leader = c;
  if ((1 - none) * belief.causes[leader]! >= numbers.asking.claim) {
    const { setting } = causes[leader]!;
    const wanted = (q: Question): boolean =>
      isLook(q) && q.links.some(([cause]) => causes[cause]!.setting === setting);
    const { id } = model.rules.settings[setting]!;
    const looks = countLooks(model, evidence, wanted, (q) => q.measures === id);
    return { done: looks >= numbers.asking.checks, wanted };
  }
  if ((1 - none) * belief.nothing >= numbers.asking['nothing-off']) {
    const found = foundNothing(model, evidence);
    return { done: found, wanted: isLook };
  }
  return { done: true, wanted: () => false };
}

/** Whether "nothing is off" has something to stand on: looks that found nothing, or a rider who noticed nothing. */
export function foundNothing(model: Model, evidence: readonly Evidence[]): boolean {
  const { questions, numbers } = model.rules;
  const told = evidence.some(
    ({ question, answer }) => questions[question]!.how !== 'stand' && answer !== questions[question]!.default,
  );
  const clean = evidence.filter(({ question, answer }) => answer === questions[question]!.default);
  return !told || countLooks(model, clean, isLook, () => false) >= numbers.asking.checks;
}

function countLooks(
  { rules }: Model,
  evidence: readonly Evidence[],
  wanted: (q: Question) => boolean,
  gauge: (q: Question) => boolean,
): number {
  let looks = 0;
  for (const { question } of evidence) {
    const q = rules.questions[question]!;
    if (wanted(q)) looks += gauge(q) ? rules.numbers.asking.checks : 1;
  }
  return looks;
}

function isLook(q: Question): boolean {
  return q.how === 'stand' && !q.safety;
}
