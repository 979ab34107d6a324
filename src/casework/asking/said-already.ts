/** What needs no asking after a rider's own words: what they answer already, where they were confirmed. */
import { isNoComplaint } from '../../rulebase/no-complaint.ts';
import type { Evidence } from '../../diagnosis/belief.ts';
import type { CompiledRules } from '../../rulebase/compiled.ts';
import { signsNoticed } from '../which-end.ts';

/** The question that picking from the opening's list answers; undefined where the list answers none. */
export function botherQuestion({ openings }: Pick<CompiledRules, 'openings'>): string | undefined {
  return openings.flatMap(({ answers }) => Object.keys(answers))[0];
}

/**
 * What bothers most, and what a confirmed answer could only be asked after.
 * @param evidence what was confirmed and answered, of a case with words of the rider's own
 * @param question index of the question
 */
export function isSaidAlready(
  { questions, openings }: Pick<CompiledRules, 'questions' | 'openings'>,
  evidence: readonly Evidence[],
  question: number,
): boolean {
  const { id } = questions[question]!;
  const isTold = evidence.some(({ question: told }) => {
    const asked = questions[told]!;
    return !asked.safety && !isNoComplaint(asked);
  });
  return (
    (isTold && id === botherQuestion({ openings })) ||
    signsNoticed(questions, evidence).some((sign) =>
      questions[sign.question]!.gates.some((gate) => gate.on === 'question' && gate.id === id),
    )
  );
}
