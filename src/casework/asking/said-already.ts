/** What needs no asking after a rider's own words: what they answer already, where they were confirmed. */
import type { Evidence } from '../../diagnosis/belief.ts';
import type { CompiledRules } from '../../rulebase/compiled.ts';
import { signsNoticed } from '../which-end.ts';

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
  const isTold = evidence.some((e) => !questions[e.question]!.safety);
  return (
    (isTold && openings.some((o) => Object.hasOwn(o.answers, id))) ||
    signsNoticed(questions, evidence).some((sign) =>
      questions[sign.question]!.gates.some((gate) => gate.on === 'question' && gate.id === id),
    )
  );
}
