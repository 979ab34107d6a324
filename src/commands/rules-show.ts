/** `earshot rules show ID` and `earshot rules schema`: what a rule says, and the form of every file. */
import { listRules, showRule } from '../report/rule-text.ts';
import type { Style } from '../report/style.ts';
import { didYouMean } from '../rulebase/suggest.ts';
import { ownSettings } from './own-settings.ts';
import { EXIT, Refusal, type ExitCode, type Io } from './io.ts';
import { loadRules } from './load-rules.ts';

export interface RulesShowOptions {
  readonly id?: string | undefined;
  readonly rules: readonly string[];
  readonly format: 'text' | 'json';
  readonly style: Style;
}

const LISTS = ['questions', 'causes', 'settings', 'adjustments', 'cautions'] as const;

export async function rulesShow(options: RulesShowOptions, io: Io): Promise<ExitCode> {
  const rules = await loadRules(io, options.rules);
  const { id } = options;
  if (id === undefined || (LISTS as readonly string[]).includes(id)) {
    const list = (id ?? 'questions') as (typeof LISTS)[number];
    await io.out(listRules(rules, list, options.format, io.stdoutIsTty ? options.style : undefined));
    return EXIT.done;
  }
  const text = showRule(rules, id, options.format, options.style);
  if (text !== undefined) {
    await io.out(text);
    return EXIT.done;
  }
  const heir = rules.retired[id];
  const ids = [
    ...rules.questions,
    ...rules.causes,
    ...rules.settings,
    ...rules.adjustments,
    ...rules.cautions,
    ...rules.words,
  ].map((x) => x.id);
  throw new Refusal(
    `Nothing has the id ${id}. ${heir === undefined ? didYouMean(id, ids) || `List them: earshot rules show ${LISTS.join(' | ')}.` : `It was retired; see ${heir}.`}`,
  );
}

export async function rulesSchema(what: string, io: Io): Promise<ExitCode> {
  const { SCHEMAS, schemaOf } = await import('../report/schemas.ts');
  if (!(SCHEMAS as readonly string[]).includes(what))
    throw new Refusal(
      `There is no schema ${what}. ${didYouMean(what, SCHEMAS) || `Choose one of ${SCHEMAS.join(', ')}.`}`,
    );
  const own = what === 'bike' ? await ownSettings(io) : [];
  await io.out(`${JSON.stringify(schemaOf(what as (typeof SCHEMAS)[number], own), null, 2)}\n`);
  return EXIT.done;
}
