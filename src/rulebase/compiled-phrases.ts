/** What a rider's own words are read by, after compiling. */
import type { End } from '../bike/sheet.ts';

/** Ways of saying one thing; phrases hold it as `<id>`. */
export interface Concept {
  readonly id: string;
  readonly words: readonly string[];
  /** it says where or when, and may stand in an earlier part of the sentence */
  readonly where: boolean;
  /** its words stand for each other in every phrase */
  readonly same: boolean;
  /** its words say no place, whatever other concept holds them */
  readonly masks: boolean;
  /** it says that all is well */
  readonly well: boolean;
  /** questions, without their end, that nothing in the same statement answers: it speaks of something else */
  readonly notAbout: readonly string[];
  /** what it says of a change that was tried */
  readonly tells: {
    readonly setting?: string | undefined;
    readonly way?: 'more' | 'less' | 'open' | 'close' | undefined;
    readonly unit?: string | undefined;
    readonly result?: 'better' | 'same' | 'worse' | 'not-sure' | undefined;
    readonly putBack?: 'yes' | undefined;
    /** the setting is meant only where no other is named, the way only where no word of doing tells one */
    readonly implied?: true | undefined;
    /** what the setting is counted in where no number was said */
    readonly countedIn?: string | undefined;
    /** the setting is filled and let out, not turned: out is less */
    readonly filled?: true | undefined;
    /** questions, without their end, that a result beside it is said of */
    readonly for?: readonly string[] | undefined;
  };
  readonly at: string;
}

/** What riders call an end of the bike, beside `front`, `rear` and `the back`. */
export interface EndNames {
  readonly end: End;
  /** just another name of the end */
  readonly names: readonly string[];
  /** tell the end, and stay words of their own */
  readonly parts: readonly string[];
  /** tell the end only where nothing else does */
  readonly hints: readonly string[];
}

/** Where the number in a phrase must lie; `of`: the first number in percent of the second. */
export interface NumberSaid {
  readonly from?: number | undefined;
  readonly to?: number | undefined;
  readonly of?: boolean | undefined;
}

/** Readings of riders' words that were judged, in numbers. */
export interface Judged {
  /** right or plausible */
  readonly right: number;
  readonly wrong: number;
}

export interface Phrase {
  readonly id: string;
  readonly says: readonly string[];
  readonly number?: NumberSaid;
  /** offered only where nothing else answers its question, or where nothing else is offered at all */
  readonly weak?: 'question' | 'most' | 'all';
  /** its words stand in their order anywhere in one sentence */
  readonly across?: true;
  /** concepts that must not stand in the same statement */
  readonly unless?: readonly string[];
  readonly ambiguous: boolean;
  readonly means: readonly string[];
  readonly separates: readonly string[];
  readonly couldBe: readonly { readonly question: string; readonly answer: string }[];
  readonly at: string;
}

export interface Opening {
  readonly id: string;
  readonly say: string;
  readonly plain: string;
  readonly topics: readonly string[];
  /** question id → answer id: what choosing it answers */
  readonly answers: Readonly<Record<string, string>>;
  /** question, without its end → the answers by which it is told in own words */
  readonly signs: Readonly<Record<string, readonly string[]>>;
}
