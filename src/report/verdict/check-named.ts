/** The check that a result names first: what is asked before all else once the rider comes back to it. */
import type { Result } from '../result/result.ts';
import { toldAbove } from './verdict-lines.ts';
import type { Voice } from './voice.ts';

/**
 * @param reads the question that the first thing to do answers, where that is a measurement
 * @returns id of the question; undefined where nothing is named
 */
export function checkNamed(result: Result, words: Voice, reads: string | undefined): string | undefined {
  if (result.verdict === 'stop') return undefined;
  return (
    reads ??
    toldAbove(result, words) ??
    result.assignments[0]?.question ??
    (result.verdict === 'unknown' ? result.next?.question : undefined)
  );
}
