/** Why a step is advised that was tried before, or that takes a kept one back. */
import type { CaseResult } from '../../casework/case.ts';
import type { RiddenBefore } from '../../casework/ridden-before.ts';
import { changeWords } from './change-words.ts';
import { inTen } from '../phrases.ts';

/** @param advised chance that the step helps, all trials counted, and whether it comes first; absent: nobody advised it */
export function riddenLines(
  ridden: readonly RiddenBefore[],
  advised?: { readonly helps: number; readonly first: boolean },
): string[] {
  return ridden.map(({ kind, result }) => {
    const when = result.date === undefined ? '' : ` on ${result.date}`;
    const what = `${changeWords(result.change)}, ${ratedWords(result)}`;
    if (kind === 'reversal')
      return `This goes back on a change that was kept${when}: ${what}.${advised === undefined ? '' : ' What was said since speaks against it.'}`;
    const still =
      advised === undefined
        ? ''
        : ` It still helps in ${inTen(advised.helps)}${advised.first ? ', and nothing else is worth more' : ''}.`;
    return `Tried before${when} and not kept: ${what}. That is counted.${still}`;
  });
}

/** `rated 1.9 points worse (± 0.8)`, or the bare word where nothing was measured. */
export function ratedWords({ outcome, points, error }: CaseResult): string {
  if (points === undefined || error === undefined) return outcome === 'same' ? 'no difference' : outcome;
  const size = Math.abs(points).toFixed(1);
  const rated = size === '0.0' ? 'no difference' : `${size} points ${points > 0 ? 'better' : 'worse'}`;
  return `rated ${rated} (± ${error.toFixed(1)})`;
}
