/** What the program itself makes of the written-down answers: its causes by falling probability. */
import { prepareBike } from '../../../src/advice/prepared-bike.ts';
import { consult } from '../../../src/casework/consult.ts';
import { vocabularyOf } from '../../../src/casework/case.ts';
import { readCase } from '../../../src/casework/reading/read-case.ts';
import { buildModel } from '../../../src/diagnosis/model.ts';
import { ideasOf } from '../../../src/diagnosis/pairs.ts';
import type { CompiledRules } from '../../../src/rulebase/compiled.ts';
import type { Written } from './score.ts';

export interface Read {
  readonly id: string;
  readonly probability: number;
}

/**
 * A reader of cases: written answers → cause ids by falling probability, with the probability.
 * @param as `shown`: as people are shown them, the two circuits of one damper in one line under its likelier half
 */
export function programOf(
  rules: CompiledRules,
  as: 'causes' | 'shown' = 'causes',
): (written: Written) => Read[] {
  const model = buildModel(rules);
  const bench = prepareBike(model);
  const vocabulary = vocabularyOf(rules);
  return ({ id, answers = {}, tried }) => {
    const raw = { case: 1, id, answers, ...(tried === undefined || tried.length === 0 ? {} : { tried }) };
    const { value, problems } = readCase(raw, vocabulary, id);
    if (value === undefined) throw new Error(`${id}: ${problems.map((p) => p.message).join(' ')}`);
    const { ranked, belief } = consult(model, bench, value, { next: false, explain: 0, fit: false });
    return as === 'shown'
      ? ideasOf(model, belief).map(({ cause, probability }) => ({ id: rules.causes[cause]!.id, probability }))
      : ranked.map((c) => ({ id: rules.causes[c]!.id, probability: belief.causes[c]! }));
  };
}
