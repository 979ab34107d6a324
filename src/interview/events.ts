/** What may happen in an interview, and what its shell must do then. */
import type { Case, CaseAnswer, CaseResult, Measured, Sure, Tried } from '../casework/case.ts';
import type { Ended, Interview } from './state.ts';

export type Event =
  | {
      readonly type: 'open';
      readonly topics: readonly string[];
      readonly said?: string;
      readonly notMeant?: Interview['notMeant'];
      /** not all that was said was gone through yet */
      readonly hearing?: true;
    }
  | { readonly type: 'confirm'; readonly answers: readonly CaseAnswer[] }
  | {
      readonly type: 'answer';
      readonly answer: string;
      /** further answers, where the question takes several */
      readonly also?: readonly string[];
      readonly sure?: Sure;
      /** the number that the answer was made of */
      readonly measured?: Measured;
      /** the rider cannot tell the end: it counts for either, and neither is asked again */
      readonly end?: 'either';
    }
  /** what was tried before, all of it: it takes the place of what was told before */
  | { readonly type: 'tried'; readonly tried: readonly Tried[] }
  /** the step that was advised was ridden; `left`: it is better and stays, and what bothered is not gone */
  | { readonly type: 'rode'; readonly result: CaseResult; readonly left: boolean }
  /** what a bike without a sheet has; comes with the bench of such a bike */
  | { readonly type: 'has'; readonly has: NonNullable<Case['has']> }
  | { readonly type: 'cannot-tell' }
  | { readonly type: 'not-now' }
  | { readonly type: 'back'; readonly steps?: number }
  | {
      readonly type: 'change';
      readonly question: string;
      readonly answer: string;
      readonly also?: readonly string[];
      readonly sure?: Sure;
      readonly measured?: Measured;
    }
  | { readonly type: 'why' }
  | { readonly type: 'keep-asking' }
  /** a question although enough was asked, before what was taken up again: what is left open of a complaint, or was named as a check */
  | { readonly type: 'ask'; readonly question: string }
  | { readonly type: 'finish' };

/** What the shell must do; the reducer itself does none of it. */
export type Effect =
  | { readonly do: 'ask'; readonly question: string }
  | { readonly do: 'save' }
  | { readonly do: 'explain'; readonly question: string }
  | { readonly do: 'report'; readonly because: Ended };

export type Transition = readonly [Interview, readonly Effect[]];
