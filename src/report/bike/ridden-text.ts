/** Why a step is advised that was tried before, or that takes a kept one back. */
import type { BikeSheet } from '../../bike/sheet.ts';
import type { CaseResult } from '../../casework/case.ts';
import type { RiddenBefore } from '../../casework/ridden-before.ts';
import { changeWords } from './change-words.ts';
import { capital } from '../../form/text.ts';
import { inTen } from '../phrases.ts';
import type { CompiledRules } from '../../rulebase/compiled.ts';
import { JUDGE } from '../../trials/decide.ts';
import { reasonIn } from '../../rulebase/reasons.ts';

/**
 * @param advised chance of the cause it is for, all trials counted, and whether it comes first; absent: nobody advised it
 * @param bike its sheet names its settings as this bike has them, its rules say why a step that failed comes again
 */
export function riddenLines(
  ridden: readonly RiddenBefore[],
  advised?: { readonly likely: number; readonly first: boolean },
  {
    sheet,
    rules,
  }: {
    readonly sheet?: BikeSheet | undefined;
    readonly rules?: Pick<CompiledRules, 'reasons' | 'adjustments'>;
  } = {},
): string[] {
  const last = ridden.findLastIndex(({ kind }) => kind === 'again');
  return ridden.map((one, i) => {
    const { kind, result } = one;
    const when = result.date === undefined ? '' : ` on ${result.date}`;
    const what = `${changeWords(result.change, sheet, rules)}, ${ratedWords(result)}`;
    if (kind === 'reversal')
      return `This undoes a change that was kept${when}: ${what}.${advised === undefined ? '' : ' What was said since points the other way.'}`;
    const still =
      advised === undefined || i !== last
        ? ''
        : ` ${capital(inTen(advised.likely))} this is still the cause${advised.first ? `, and it is still the best thing to try: ${reasonIn(rules?.reasons, whyAgain(one))}` : ''}.`;
    return `Tried before${when} and not kept: ${what}. That is taken into account.${still}`;
  });
}

/**
 * `rated worse`, or the bare word where nothing was measured. How many points is told by the verdict alone: what is kept of
 * an open trial is less, by what belief may have added.
 */
export function ratedWords({ outcome, points, error }: CaseResult): string {
  if (points === undefined || error === undefined) return outcome === 'same' ? 'no difference' : outcome;
  if (outcome === 'same')
    return points >= JUDGE.worth ? 'rated better, but not clearly' : 'rated no difference';
  return `rated ${points > 0 ? 'better' : 'worse'}`;
}

/** Why a step that was not kept may come again. */
function whyAgain({
  result: { outcome, error },
  stands,
  same,
}: RiddenBefore): Parameters<typeof reasonIn>[1] {
  if (!stands) return 'again-changed';
  if (!same) return 'again-size';
  if (outcome === 'better') return 'again-better';
  return error === undefined ? 'again-word' : 'again-scatter';
}
