/** The question that is left to ask, once the rest is over, of a complaint that the change is not surely for. */
import type { Ended } from '../../interview/state.ts';
import type { Result } from '../../report/result/result.ts';
import { waitsForFirst } from '../../report/verdict/complaint-lines.ts';

/** A question that was asked for a complaint. */
export interface AskedFor {
  readonly phrase: string;
  readonly question: string;
}

/** More questions than these are not asked so: of a complaint the change does nothing for, of one it may help, and of all. Judgement. */
const MOST = { nothingFor: 2, mayHelp: 1, all: 3 } as const;

/** What the change does nothing for goes before what it may help. */
export function leftOfComplaints(
  result: Pick<Result, 'complaints' | 'because' | 'insteadOf' | 'verdict'>,
  ended: Ended,
  asked: readonly AskedFor[],
): AskedFor | undefined {
  if (ended === 'danger' || ended === 'finished' || ended === 'stuck') return undefined;
  // The only complaint was asked about already, where a change is for it.
  if ((result.complaints.length < 2 && result.verdict === 'change') || asked.length >= MOST.all)
    return undefined;
  const open = result.complaints.filter((one) => !waitsForFirst(one, result));
  const next = (wanted: readonly (string | null)[], most: number): AskedFor | undefined =>
    open
      .flatMap(({ phrase, promise, ask: question }) =>
        question === null || !wanted.includes(promise) ? [] : [{ phrase, question }],
      )
      .find(
        ({ phrase, question }) =>
          asked.filter((one) => one.phrase === phrase).length < most &&
          asked.every((one) => one.question !== question),
      );
  return next([null, 'none'], MOST.nothingFor) ?? next(['help'], MOST.mayHelp);
}
