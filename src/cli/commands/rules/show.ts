/** `earshot rules show`: what a rule says, or a list of them. */
import { command, format, maybeArg } from '../../takes.ts';
import { listRules, showRule } from '../../../report/rules/rule-text.ts';
import { ENDS } from '../../../bike/sheet.ts';
import { didYouMean } from '../../../form/suggest.ts';
import { EXIT, Refusal } from '../../../host/io.ts';
import type { CompiledRules } from '../../../rulebase/compiled.ts';
import { loadRules } from '../../../workspace/rules/load-rules.ts';

const LISTS = ['questions', 'causes', 'settings', 'adjustments', 'cautions'] as const;

export const rulesShow = command({
  about: 'one rule in words, or a list: questions, causes, settings, adjustments, cautions',
  args: { id: maybeArg('an id, or the name of a list') },
  options: { format: format('text', 'json') },
  examples: [
    ['earshot rules show questions', 'a list with all ids'],
    ['earshot rules show front.rebound.high.too-slow', 'one cause in words'],
  ],
  run: async ({ id, format: form }, { io, rules: packs, style }) => {
    const rules = await loadRules(io, packs);
    if (id === undefined || (LISTS as readonly string[]).includes(id)) {
      const list = (id ?? 'questions') as (typeof LISTS)[number];
      await io.out(listRules(rules, list, form, io.stdoutIsTty ? await style() : undefined));
      return EXIT.done;
    }
    const text = showRule(rules, id, form, await style());
    if (text !== undefined) {
      await io.out(text);
      return EXIT.done;
    }
    const ids = [
      ...rules.questions,
      ...rules.causes,
      ...rules.settings,
      ...rules.adjustments,
      ...rules.cautions,
      ...rules.words,
    ].map((x) => x.id);
    throw new Refusal(`Nothing has the id ${id}. ${elsewhere(id, ids, rules.retired)}`);
  },
});

/** Where to look instead of under an id that nothing has. */
function elsewhere(id: string, ids: readonly string[], retired: CompiledRules['retired']): string {
  if (Object.hasOwn(retired, id)) return `It was retired; see ${retired[id]!}.`;
  const known = new Set(ids);
  const atAnEnd = ENDS.flatMap((end) => [`${id}@${end}`, `${end}.${id}`]).filter((one) => known.has(one));
  return atAnEnd.length > 0
    ? `Name its end: ${atAnEnd.join(' or ')}.`
    : didYouMean(id, ids) || `List them: earshot rules show ${LISTS.join(' | ')}.`;
}
