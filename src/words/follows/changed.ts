/** A change that was told without what came of it, as an answer to what was changed: "took out a spacer". */
import type { CompiledRules } from '../../rulebase/compiled.ts';
import type { Reading } from '../matcher.ts';
import type { Changed } from '../tried/tried.ts';

/** @returns what is offered of such changes beside the readings: nothing where one of them says what was changed */
export function changesAsReadings(
  questions: CompiledRules['questions'],
): (changes: readonly Changed[], beside: readonly Reading[]) => Reading[] {
  const asked = questions.flatMap(({ id, toldChange }) =>
    toldChange === undefined ? [] : [{ id, toldChange }],
  );
  return (changes, beside) =>
    asked.flatMap(({ id, toldChange }) => {
      if (beside.some(({ candidates }) => candidates.some(({ question }) => question === id))) return [];
      const told = changes.flatMap((change) =>
        Object.entries(toldChange)
          .filter(([, settings]) => settings.includes(change.setting))
          .map(([answer]) => ({ change, answer })),
      );
      const [first] = told;
      // Several kinds of change: which of them is meant is asked.
      if (first === undefined || told.some(({ answer }) => answer !== first.answer)) return [];
      const { text, spans, end } = first.change;
      return [
        {
          phrase: id,
          text,
          position: spans[0]![0],
          ...(end === undefined ? {} : { end }),
          negated: false,
          ambiguous: false,
          means: [],
          separates: [],
          candidates: [{ question: id, answer: first.answer, confirmed: false as const }],
          score: 1,
        },
      ];
    });
}
