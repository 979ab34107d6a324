/** What the program itself makes of the written-down answers: its causes by falling probability. */
import { prepareBike } from '../../../src/advice/prepared-bike.ts';
import { consult, type Consultation } from '../../../src/casework/consult.ts';
import { vocabularyOf } from '../../../src/casework/case.ts';
import { readCase } from '../../../src/casework/reading/read-case.ts';
import { buildModel, type Model } from '../../../src/diagnosis/model.ts';
import { ideasOf } from '../../../src/diagnosis/pairs.ts';
import type { CompiledRules } from '../../../src/rulebase/compiled.ts';
import type { Written } from './score.ts';

export interface Read {
  readonly id: string;
  readonly probability: number;
}

interface Thinking {
  readonly model: Model;
  readonly think: (written: Written) => Pick<Consultation, 'ranked' | 'belief'>;
}
const made = new WeakMap<CompiledRules, Thinking>();

/** One model of these rules, and each case thought through once, as which it is then read. */
function thinking(rules: CompiledRules): Thinking {
  const before = made.get(rules);
  if (before !== undefined) return before;
  const model = buildModel(rules);
  const bench = prepareBike(model);
  const vocabulary = vocabularyOf(rules);
  const known = new Map<string, Consultation>();
  const think = ({ id, answers = {}, tried }: Written): Consultation => {
    const raw = { case: 1, id, answers, ...(tried === undefined || tried.length === 0 ? {} : { tried }) };
    const key = JSON.stringify(raw);
    const thought = known.get(key);
    if (thought !== undefined) return thought;
    const { value, problems } = readCase(raw, vocabulary, id);
    if (value === undefined) throw new Error(`${id}: ${problems.map((p) => p.message).join(' ')}`);
    const c = consult(model, bench, value, { next: false, explain: 0, fit: false });
    known.set(key, c);
    return c;
  };
  const fresh = { model, think };
  made.set(rules, fresh);
  return fresh;
}

/**
 * A reader of cases: written answers → cause ids by falling probability, with the probability.
 * @param as `shown`: as people are shown them, the two circuits of one damper in one line under its likelier half
 */
export function programOf(
  rules: CompiledRules,
  as: 'causes' | 'shown' = 'causes',
): (written: Written) => Read[] {
  const { model, think } = thinking(rules);
  return (written) => {
    const { ranked, belief } = think(written);
    return as === 'shown'
      ? ideasOf(model, belief).map(({ cause, probability }) => ({ id: rules.causes[cause]!.id, probability }))
      : ranked.map((c) => ({ id: rules.causes[c]!.id, probability: belief.causes[c]! }));
  };
}
