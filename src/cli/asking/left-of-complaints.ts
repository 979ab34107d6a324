/** The question that is left to ask, once the rest is over, of a complaint that the change is not surely for. */
import type { Ended } from '../../interview/state.ts';
import type { Numbers } from '../../rulebase/numbers-schema.ts';
import type { Result } from '../../report/result/result.ts';
import { waitsForFirst } from '../../report/verdict/complaint-lines.ts';

/** A question that was asked for a complaint. */
export interface AskedFor {
  readonly phrase: string;
  readonly question: string;
}

/**
 * What the change does nothing for goes before what it may help.
 * @param most questions that are asked so
 */
export function leftOfComplaints(
  result: Pick<Result, 'complaints' | 'because' | 'insteadOf' | 'verdict'>,
  ended: Ended,
  asked: readonly AskedFor[],
  most: Numbers['asking']['of-complaint'],
): AskedFor | undefined {
  if (ended === 'danger' || ended === 'finished' || ended === 'stuck') return undefined;
  // The only complaint was asked about already, where a change is for it.
  if ((result.complaints.length < 2 && result.verdict === 'change') || asked.length >= most.all)
    return undefined;
  const open = result.complaints.filter((one) => !waitsForFirst(one, result));
  const next = (wanted: readonly (string | null)[], times: number): AskedFor | undefined =>
    open
      .flatMap(({ phrase, promise, ask: question }) =>
        question === null || !wanted.includes(promise) ? [] : [{ phrase, question }],
      )
      .find(
        ({ phrase, question }) =>
          asked.filter((one) => one.phrase === phrase).length < times &&
          asked.every((one) => one.question !== question),
      );
  return next([null, 'none'], most['nothing-for']) ?? next(['help'], most['may-help']);
}
