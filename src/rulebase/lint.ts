/** What can be wrong with rules that are well formed: causes nobody can find, questions that tell nothing. */
import type { CompiledRules, Question } from './compiled.ts';
import type { Check } from './compile-checks.ts';
import type { Problem, ProblemCode, Severity } from '../form/problem.ts';

const LEAST_QUESTIONS = 3;
const LEAST_SEPARATING = 2;
/** two causes answer a question differently when some answer's probability differs by this much */
const TELLING = 0.15;

/**
 * Lints the compiled rules. What a rule author must mend is an error; what a pack may live with is a warning; pairs
 * that no question can tell apart are only noted, because some are the same to every rider.
 * @param answer the probability of each answer of a question when only this cause is off (or none: -1)
 */
export function lint(
  rules: CompiledRules,
  checks: readonly Check[],
  answer: (question: Question, cause: number) => Float64Array,
): Problem[] {
  const problems: Problem[] = [];
  const put = (at: string, code: ProblemCode, severity: Severity, message: string, remedy: string): void => {
    problems.push({ ...placeOf(at), code, severity, message, remedy });
  };
  const asked = rules.questions.filter((q) => q.either === undefined);
  const spread = asked.map((q) => ({
    q,
    by: rules.causes.map((_, c) => answer(q, c)),
    none: answer(q, -1),
  }));
  const differ = (a: Float64Array, b: Float64Array): number =>
    a.reduce((most, p, i) => Math.max(most, Math.abs(p - b[i]!)), 0);

  for (const { q, by, none } of spread) {
    if (by.every((p) => differ(p, none) < 1e-6))
      put(
        q.at,
        'powerless',
        'error',
        `${q.id} can never change the ranking.`,
        'Point one of its answers to a cause, or take it out.',
      );
  }
  rules.causes.forEach((cause, c) => {
    const at = rules.settings[cause.setting]!.at;
    const found = rules.questions.filter((q) => q.links.some(([i]) => i === c)).length;
    if (found < LEAST_QUESTIONS) {
      put(
        at,
        'unreachable',
        found === 0 ? 'error' : 'warning',
        `${found === 0 ? 'No question points' : `Only ${found} question${found === 1 ? '' : 's'} point${found === 1 ? 's' : ''}`} to ${cause.id}.`,
        `Point at least ${LEAST_QUESTIONS} questions to it.`,
      );
    }
    const cured = rules.adjustments.some(
      (a) =>
        a.fixes.some(([i]) => i === c) ||
        a.moves.some((m) => m.setting === cause.setting && m.toward !== c && m.share === 1),
    );
    if (!cured)
      put(
        at,
        'no-remedy',
        'error',
        `No adjustment cures ${cause.id}.`,
        'Add one that moves its setting the other way, or fixes it.',
      );
  });
  for (const setting of rules.settings) {
    const [a, b] = setting.causes;
    if (a === undefined || b === undefined) continue;
    const telling = spread.filter(({ by }) => differ(by[a]!, by[b]!) >= TELLING).length;
    if (telling < LEAST_SEPARATING)
      put(
        setting.at,
        'weakly-separable',
        'warning',
        `${telling} question${telling === 1 ? ' tells' : 's tell'} the two directions of ${setting.id} apart.`,
        `Let at least ${LEAST_SEPARATING} do so.`,
      );
  }
  for (let a = 0; a < rules.causes.length; a++) {
    for (let b = a + 1; b < rules.causes.length; b++) {
      if (spread.every(({ by }) => differ(by[a]!, by[b]!) < TELLING / 2)) {
        put(
          rules.settings[rules.causes[a]!.setting]!.at,
          'inseparable',
          'note',
          `No question tells ${rules.causes[a]!.id} from ${rules.causes[b]!.id}.`,
          'Add one if a rider or a check could tell.',
        );
      }
    }
  }
  const tried = new Set(checks.flatMap((c) => Object.keys(c.given)));
  for (const q of asked) {
    if (!tried.has(q.id))
      put(
        q.at,
        'no-check',
        'warning',
        `No check answers ${q.id}.`,
        'Add a check beside it, in a .checks.yaml file.',
      );
  }
  return problems;
}

/** `file:line` → a place. */
export function placeOf(at: string): { file: string; line: number; col: number } {
  const cut = at.lastIndexOf(':');
  return { file: at.slice(0, cut), line: Number(at.slice(cut + 1)), col: 1 };
}
