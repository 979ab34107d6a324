/** One interview's answers, as saved in a file or fed in by a script. */
import type { PathProblem } from '../form/problem.ts';
import type { Deed } from '../bike/deed.ts';
import type { SheetTrade } from '../bike/check/sheet-check.ts';
import type { Band } from '../bike/gauge/gauge.ts';
import type { Length, ReadUnit } from '../bike/gauge/read-number.ts';
import type { SpringAt } from '../bike/gauge/spring-at.ts';
import type { BikeSheet } from '../bike/sheet.ts';
import type { CompiledRules, Question } from '../rulebase/compiled.ts';
import { meantBy } from './tried/tried-meaning.ts';

export const CASE_FORMAT = 1;

export const SURE = ['sure', 'fairly', 'guess'] as const;
export type Sure = (typeof SURE)[number];

export const OUTCOMES = ['better', 'same', 'worse'] as const;
export type Outcome = (typeof OUTCOMES)[number];
/** Nobody rates finer than this; a smaller error would make a slip of the pen a proof. */
export const LEAST_ERROR = 0.05;
/** Points of the scale from its one end to the other. */
export const MOST_POINTS = 6;

/** An answer by id; `cannot-tell` and `not-now` are remembered but count for nothing. */
export interface CaseAnswer {
  readonly question: string;
  readonly answer: string;
  /** further answers, where the question takes several; all of them in the order of the rule */
  readonly also?: readonly string[];
  readonly sure: Sure;
  /** the number that the answer was made of */
  readonly measured?: Measured;
}

/** A number that was read with a gauge, and what counts as on target; shares for sag, Pa for pressures. */
export interface Measured {
  readonly value: number;
  /** the unit it was told in */
  readonly unit: ReadUnit;
  readonly band: Band;
  /** of a sag that was told in millimetres or inches */
  readonly length?: Length;
  /** of a sag, where it was told: what the spring held, or which coil it is */
  readonly at?: SpringAt;
}

export interface CaseResult {
  readonly change: Deed;
  readonly outcome: Outcome;
  /** whether the change stayed on the bike */
  readonly kept: boolean;
  /** what its ratings came to: points better than the reference, and their standard deviation; they count instead of the word */
  readonly points?: number;
  readonly error?: number;
  /** something was changed for good, in no trial, after it was ridden: it says nothing of the bike as it stands */
  readonly changedAfter?: true;
  /** the trial and the day, as written in the file: carried through, never used */
  readonly trial?: string;
  readonly date?: string;
}

export const TRIED_RESULTS = [...OUTCOMES, 'not-sure'] as const;
export type TriedResult = (typeof TRIED_RESULTS)[number];
export const PUT_BACK = ['yes', 'no', 'unknown'] as const;

/** What somebody changed before the interview, as remembered; whether it makes sense on the bike is seen later. */
export interface Tried {
  /** or else the setting, with which way and how far */
  readonly change?: Deed;
  /** with its end, front.compression.low, or without it beside `end` */
  readonly setting?: string;
  readonly end?: string;
  /** open, more, up (+); close, less, down (−); a list where somebody said both */
  readonly direction?: string | readonly string[];
  readonly by?: number;
  readonly unit?: string;
  readonly result: TriedResult;
  /** what the result speaks of, as ids of questions or topics; all of the bike where it is left out */
  readonly for?: readonly string[];
  /** whether the bike was set back to how it was */
  readonly putBack: (typeof PUT_BACK)[number];
}

/** What was tried before the answers, the answers, and what was ridden after them. */
export interface Round {
  /** whether something was changed for good, and in no trial, between the round before and this one */
  readonly changed?: true;
  readonly tried?: readonly Tried[];
  readonly answers: readonly CaseAnswer[];
  readonly results: readonly CaseResult[];
}

export interface Case extends Round {
  readonly id: string;
  /** a path to a bike sheet, or the sheet itself as in a bike file */
  readonly bike?: string | Readonly<Record<string, unknown>>;
  /** what the rider said of a bike without a sheet: as written, and as it was understood */
  readonly has?: { readonly raw: Readonly<Record<string, unknown>>; readonly bike: BikeSheet };
  readonly said?: string;
  /** rounds before this one, oldest first: their trials changed the bike before these answers were given */
  readonly earlier: readonly Round[];
  /** what an interview needs besides the answers to go on where it stood; diagnosis takes no notice */
  readonly interview?: InterviewNotes;
  /** anything the user wrote down; carried through */
  readonly note?: unknown;
}

export interface InterviewNotes {
  /** topics of what bothers the rider most: they are asked about first */
  readonly about: readonly string[];
  /** question → answers that the rider's words could mean, and that he said they do not */
  readonly notMeant?: Readonly<Record<string, readonly string[]>>;
  /** it was left before all that was said was gone through */
  readonly hearing?: true;
  /** the user wanted to go on past enough */
  readonly keepAsking: boolean;
  /** the user ended it, whatever was left to ask */
  readonly finished?: boolean;
  /** whom it speaks to; a mechanic when absent */
  readonly for?: 'rider';
  /** ISO 8601; none of its answers is older, whatever becomes of its file */
  readonly begun?: string;
}

export interface ReadCase {
  /** absent when any error was found */
  readonly value?: Case;
  readonly problems: readonly PathProblem[];
}

export interface CaseVocabulary {
  readonly questions: ReadonlyMap<string, Question>;
  readonly retired: CompiledRules['retired'];
  readonly adjustments: ReadonlySet<string>;
  /** the settings that the packs add to a bike */
  readonly adjusters: CompiledRules['adjusters'];
  readonly topics: ReadonlySet<string>;
  /** what counts as on target */
  readonly near: SheetTrade['near'];
  /** why what was tried is known under no rule, as far as its words alone tell */
  readonly misread: (tried: Tried) => string | undefined;
}

/** Takes down one error. What is dear to find out is handed in as a function, and not asked of the thousandth error. */
export type Wrong = (
  path: readonly (string | number)[],
  message: string,
  remedy: string | (() => string),
  key?: string,
) => void;

export function vocabularyOf(rules: CompiledRules): CaseVocabulary {
  return {
    questions: new Map(rules.questions.map((q) => [q.id, q])),
    retired: rules.retired,
    adjustments: new Set(rules.adjustments.map((a) => a.id)),
    adjusters: rules.adjusters,
    topics: new Set(rules.questions.map((q) => q.topic)),
    near: rules.sheetCheck.near,
    misread: (tried) => {
      const meant =
        tried.change === undefined && tried.setting !== undefined ? meantBy({ rules }, tried) : [];
      return typeof meant === 'string' ? meant : undefined;
    },
  };
}
