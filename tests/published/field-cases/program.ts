/** What the program itself makes of the written-down answers: its causes by falling probability. */
import { prepareBike } from '../../../src/advice/prepared-bike.ts';
import { consult } from '../../../src/casework/consult.ts';
import { vocabularyOf } from '../../../src/casework/case.ts';
import { readCase } from '../../../src/casework/read-case.ts';
import { buildModel } from '../../../src/diagnosis/model.ts';
import type { CompiledRules } from '../../../src/rulebase/compiled.ts';
import type { Written } from './score.ts';

/** A reader of cases: written answers → cause ids by falling probability, with the probability. */
export function programOf(rules: CompiledRules): (written: Written) => { id: string; probability: number }[] {
  const model = buildModel(rules);
  const bench = prepareBike(model);
  const vocabulary = vocabularyOf(rules);
  return ({ id, answers = {}, tried }) => {
    const raw = { case: 1, id, answers, ...(tried === undefined || tried.length === 0 ? {} : { tried }) };
    const { value, problems } = readCase(raw, vocabulary, id);
    if (value === undefined) throw new Error(`${id}: ${problems.map((p) => p.message).join(' ')}`);
    const { ranked, belief } = consult(model, bench, value, { next: false, explain: 0, fit: false });
    return ranked.map((c) => ({ id: rules.causes[c]!.id, probability: belief.causes[c]! }));
  };
}
