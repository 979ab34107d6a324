/** The result of one case as data: stable, versioned, in ids and in words; every printed form is made from it. */
import type { Verdict } from '../../advice/advise.ts';
import type { Because } from '../../advice/put-first.ts';
import type { StopReason } from '../../advice/stop.ts';
import type { Deed } from '../../bike/deed.ts';
import type { UnconfirmedLine } from '../../casework/said/unconfirmed.ts';
import type { Question, CompiledRules } from '../../rulebase/compiled.ts';
import type { ResultAdjustment } from './result-adjustment.ts';

export const RESULT_FORMAT = 1;

export interface ResultCause {
  readonly id: string;
  readonly name: string;
  readonly probability: number;
  /** where it is the likelier of the two circuits of one damper: the other, and what the two are together */
  readonly pair?: {
    readonly other: string;
    readonly name: string;
    readonly probability: number;
  };
  readonly evidence: readonly {
    readonly question: string;
    readonly answer: string;
    readonly decibans: number;
    /** the number that the answer was made of: `43 %` */
    readonly measured?: string;
    /** what was done, where it is no answer: in a trial, or tried before */
    readonly trial?: Deed;
    readonly tried?: Deed;
    /** nobody said how far it was turned */
    readonly unsized?: true;
  }[];
}

export interface ResultCaution {
  readonly id: string;
  readonly level: 'note' | 'care' | 'stop';
  readonly text: string;
  /** said because its cause is likely, whatever comes first */
  readonly likely?: true;
}

export interface Result {
  readonly format: number;
  readonly case: string;
  readonly rules: { readonly name: string; readonly version: string; readonly digest: string };
  readonly bike: string | null;
  readonly said: string | null;
  readonly verdict: Verdict;
  /** probability that nothing is off */
  readonly nothing: number;
  /** chance of something off that the rules do not know */
  readonly none: number;
  /** false: so much is claimed that it should first be looked at on the bike */
  readonly checked: boolean;
  readonly causes: readonly ResultCause[];
  readonly adjustments: readonly ResultAdjustment[];
  /** id of the adjustment to do first */
  readonly first: string | null;
  readonly because: Because | null;
  /** what would have been first, and why it cannot be done here */
  readonly insteadOf: { readonly id: string; readonly do: string; readonly why: string } | null;
  readonly blocked: readonly {
    readonly id: string;
    readonly do: string;
    readonly why: string;
    readonly next: readonly string[];
    /** the first of these that would cure it as well, why it is not advised either, and the question it waits for */
    readonly waits: {
      readonly id: string;
      readonly do: string;
      readonly why: string;
      readonly ask: string | null;
    } | null;
  }[];
  /** what would cure something likely, and is not advised */
  readonly refused: readonly {
    readonly id: string;
    readonly do: string;
    readonly why: string;
    /** a smaller step of it that nobody rode yet, in change notation; null where there is none */
    readonly less: string | null;
    /** because it was ridden or tried, and was no better */
    readonly ridden: boolean;
  }[];
  readonly next: {
    readonly question: string;
    readonly ask: string;
    readonly how: Question['how'];
    readonly bits: number;
    readonly minutes: number;
  } | null;
  readonly stop: StopReason | null;
  readonly fit: { readonly z: number; readonly reask: readonly string[] } | null;
  /** what to go and ride or check, from the questions the rider could not answer */
  readonly assignments: readonly { readonly question: string; readonly text: string }[];
  /** what a gauge read off its target, as evidence: on the sheet, or answered */
  readonly offTarget: readonly {
    readonly question: string;
    readonly answer: string;
    readonly measured?: string;
  }[];
  /** below a stop: the answers that stop it */
  readonly found?: readonly { readonly question: string; readonly answer: string }[];
  /** what was tried in vain and is still on the bike, where nothing is to be changed: it may go back */
  readonly leftIn?: { readonly do: string; readonly plain: string };
  /** what was tried and made one thing better and another worse, in words */
  readonly trades?: readonly string[];
  /** what earlier trials did, most moved cause first */
  readonly trials: readonly {
    readonly change: string;
    readonly what: Deed;
    readonly outcome: string;
    readonly cause: string;
    readonly decibans: number;
  }[];
  readonly cautions: readonly ResultCaution[];
  /** readings of free text that nobody confirmed; never counted */
  readonly unconfirmed: readonly UnconfirmedLine[];
  /** what becomes of every complaint in the free text: share of it that the first change cures, what else is for it */
  readonly complaints: readonly {
    readonly phrase: string;
    /** a sign of it was answered: it is no longer only the words */
    readonly told: boolean;
    /** no sound bike does it: a mechanic looks for it, and nobody waits for the next ride */
    readonly neverNormal: boolean;
    readonly helped: number | null;
    /** what the change is said to do for it: fix it, help, nothing; aimed: it would, if its cause were likelier */
    readonly promise: Promised | null;
    readonly instead: { readonly id: string; readonly do: string; readonly plain: string } | null;
    readonly ask: string | null;
  }[];
  /** what the rider asked about doing, in the free text: whether it is what is advised, else why not, or its odds */
  readonly asked?: readonly {
    readonly phrase: string;
    /** of the adjustment it comes to, and the setting that turns, in words */
    readonly id: string;
    readonly what: string;
    readonly first: boolean;
    readonly why: string | null;
    readonly better: number;
    readonly worse: number;
  }[];
  readonly warnings: readonly string[];
}

/** The adjustment to do first, where one is advised. */
export function firstOf({
  adjustments,
  first,
}: Pick<Result, 'adjustments' | 'first'>): ResultAdjustment | undefined {
  return adjustments.find(({ id }) => id === first);
}

export const PROMISES = ['fix', 'aimed', 'help', 'none'] as const;
export type Promised = (typeof PROMISES)[number];

/** What a change is said to do for a complaint; what hangs on a cause that is not likely itself is promised to nobody. */
export function promised(helped: number, likely: number, told: CompiledRules['numbers']['advice']): Promised {
  if (helped >= told['should-fix']) return likely >= told['should-fix'] ? 'fix' : 'aimed';
  return helped >= told['may-help'] ? 'help' : 'none';
}
