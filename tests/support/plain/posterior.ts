/**
 * The model as it is written down, and nothing else: every set of causes, every answer's chance under it, one doubt and one
 * wrong story an impression. It says what the engine must come to; the engine (`src/diagnosis/belief.ts` over `fast/`) comes to it
 * faster, and the tests compare the two. Not for answers whose end is not known, nor for what was tried or ridden.
 */
import { answerProbabilities } from '../../../src/diagnosis/answer-model.ts';
import type { Evidence } from '../../../src/diagnosis/belief.ts';
import { storiesOf } from '../../../src/diagnosis/correlated-errors.ts';
import type { CompiledRules } from '../../../src/rulebase/compiled.ts';

export interface PlainBelief {
  /** every allowed set, by its causes, with its probability; the first is the empty one */
  readonly sets: readonly { readonly causes: readonly number[]; readonly p: number }[];
  /** P(answers) */
  readonly evidence: number;
}

/** Every set that the rules allow, its weight Π π/(1−π). */
function setsOf({ causes, settings, numbers }: CompiledRules): { causes: number[]; weight: number }[] {
  const most = numbers['causes-at-once'];
  const beside = (c: number): number =>
    numbers['at-once-beside']?.[settings[causes[c]!.setting]!.kind] ?? most;
  const sets = [{ causes: [] as number[], weight: 1 }];
  causes.forEach(({ prior, setting }, c) => {
    for (const { causes: held, weight } of [...sets]) {
      const own = [...held, c];
      const fits = own.length <= Math.min(most, ...own.map(beside));
      if (fits && held.every((x) => causes[x]!.setting !== setting))
        sets.push({ causes: own, weight: (weight * prior) / (1 - prior) });
    }
  });
  return sets;
}

/** W: the mean over all stories of the chance that a wrong impression is told so. */
function wrongly({ questions, numbers }: CompiledRules, answers: readonly Evidence[]): number {
  const { group } = questions[answers[0]!.question]!;
  const stories = storiesOf(
    questions,
    [...questions.keys()].filter((q) => questions[q]!.group === group),
  );
  const count = Math.max(1, ...[...stories.values()].map((fits) => fits?.length ?? 1));
  const told = Array.from({ length: count }, (_, s) =>
    answers.reduce((p, { question, answer, sure }) => {
      const fits = stories.get(question);
      const b = fits === undefined ? 0 : sure * numbers['one-story'][questions[question]!.how];
      return p * (b * Number(fits?.[s] === answer) + (1 - b) / questions[question]!.answers.length);
    }, 1),
  );
  return told.reduce((sum, p) => sum + p, 0) / count;
}

/** Π (sure·P'(a) + (1−sure)/m) over a group's answers, with P' = (1−slip)·P + slip/m. */
function rightly(
  { questions, numbers }: CompiledRules,
  set: readonly number[],
  answers: readonly Evidence[],
): number {
  return answers.reduce((product, { question, answer, sure }) => {
    const q = questions[question]!;
    const m = q.answers.length;
    const slip = numbers.slip[q.how];
    const p = answerProbabilities(q, set, new Float64Array(m))[answer]!;
    return product * (sure * ((1 - slip) * p + slip / m) + (1 - sure) / m);
  }, 1);
}

/** @param doubt that an impression is wrong as a whole, for all groups; absent: the pack's own */
export function plainPosterior(
  rules: CompiledRules,
  evidence: readonly Evidence[],
  doubt?: number,
): PlainBelief {
  const groupOf = (e: Evidence): string => rules.questions[e.question]!.group;
  const groups = [...new Set(evidence.map(groupOf))].map((g) => {
    const answers = evidence.filter((e) => groupOf(e) === g);
    const d = doubt ?? rules.numbers.trust[rules.questions[answers[0]!.question]!.how];
    return { answers, d, wrong: wrongly(rules, answers) };
  });
  const sets = setsOf(rules).map(({ causes, weight }) => ({
    causes,
    weight,
    p: groups.reduce(
      (w, { answers, d, wrong }) => w * ((1 - d) * rightly(rules, causes, answers) + d * wrong),
      weight,
    ),
  }));
  const before = sets.reduce((sum, { weight }) => sum + weight, 0);
  const total = sets.reduce((sum, { p }) => sum + p, 0);
  return { sets: sets.map(({ causes, p }) => ({ causes, p: p / total })), evidence: total / before };
}

/** P(cause) for each cause of the rules. */
export function plainCauses(rules: CompiledRules, { sets }: PlainBelief): number[] {
  return rules.causes.map((_, c) => sets.reduce((sum, s) => sum + (s.causes.includes(c) ? s.p : 0), 0));
}
