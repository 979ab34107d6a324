/** An adjustment of the compiled rules: one step, when it may come, and how to undo it. */
import type { OwnUnit } from '../bike/own-setting.ts';
import type { End } from '../bike/sheet.ts';
import type { AdjustmentSource } from './schema/adjustment.ts';
import type { Standing, Gate } from './compiled.ts';

export interface Move {
  /** index into settings */
  readonly setting: number;
  /** index into causes: the direction it moves toward */
  readonly toward: number;
  /** 1 = a full step of this setting */
  readonly share: number;
}

/** All must hold before an adjustment may be first. */
export interface Proofs {
  /** adjustments that cannot be done on this bike */
  readonly blocked: readonly string[];
  /** least probability of a cause it cures */
  readonly likely: number;
  readonly answered: AnswersNeeded;
}

/** All must hold; unlike a gate, what the sheet does not say is not so. */
export type AnswersNeeded = readonly Gate[];

/** All parts must hold for the adjustment to be refused. */
export interface Refusal {
  readonly answers: AnswersNeeded;
  /** [cause index, least probability] */
  readonly causes: readonly (readonly [number, number])[];
  /** [cause index, the probability it must stay below] */
  readonly below: readonly (readonly [number, number])[];
  /** any one of these answers lifts it */
  readonly unless: AnswersNeeded;
  /** ids of the adjustments that it waits for: it ends once they were tested in vain */
  readonly untilTested?: readonly string[];
  /** what is turned has no room left: its next rung is named, as behind a stop */
  readonly noRoom?: true;
  readonly why: string;
}

/** Other words for the same step, where all of one of these was answered. */
export interface WordedWhen {
  readonly answers: readonly AnswersNeeded[];
  readonly words: Partial<Pick<Adjustment, 'do' | 'plain' | 'feel'>>;
}

export interface Adjustment extends Standing {
  /** other words where the end's only rebound knob acts on both circuits */
  readonly oneKnob?: Partial<Pick<Adjustment, 'do' | 'plain' | 'wayBack' | 'knockOn' | 'feel'>>;
  readonly id: string;
  readonly end?: End;
  readonly do: string;
  readonly plain: string;
  readonly kind: AdjustmentSource['kind'];
  readonly change?: {
    readonly setting: string;
    readonly by: number;
    readonly unit: OwnUnit;
    /** the most at once where the whole correction is known from what was measured */
    readonly most?: number;
    /** never set lower than this */
    readonly notBelow?: number;
  };
  readonly minutes: number;
  readonly moves: readonly Move[];
  /** [cause index, share cured] beyond what the moves cure */
  readonly fixes: readonly (readonly [number, number])[];
  /** path of the bike sheet → what it may say there */
  readonly needs: Readonly<Record<string, readonly string[]>>;
  /** of a put-back, what came of what is put back; absent: either */
  readonly after?: 'worse' | 'same' | 'good';
  /** of a measurement, the question it answers */
  readonly reads?: string;
  /** questions of a gauge that come before it; when: only with one of these */
  readonly measureFirst: readonly { readonly question: string; readonly when?: readonly AnswersNeeded[] }[];
  /** questions of a gauge; once one reads off, it comes before the clicks of its end */
  readonly firstWhenMeasured: readonly string[];
  /** answers with which it comes before every change: all of one of these */
  readonly firstWhenAnswered?: readonly AnswersNeeded[];
  /** with those, also before anything that was tried is put back */
  readonly beforePutBack?: true;
  readonly proofs?: Proofs;
  readonly refuseWhen: readonly Refusal[];
  /** the first that fits what was answered */
  readonly wordedWhen?: readonly WordedWhen[];
  readonly wayBack: string;
  readonly next: readonly string[];
  readonly knockOn?: string;
  /** knob, as the sheet has it, and what it does besides where the bike is not known to lack it */
  readonly knockOnWith?: readonly (readonly [path: string, text: string])[];
  /** what is checked once it stays */
  readonly onceKept?: string;
  readonly feel: string;
  readonly cautions: readonly string[];
  /** caution → the least step, in the unit of the change, with which it is said */
  readonly cautionsFrom?: Readonly<Record<string, number>>;
  /** how a step goes on where no figure of the sheet ends it */
  readonly repeat?: Repeat;
  /** those that only some answers ask for */
  readonly cautionsWhen: readonly { readonly id: string; readonly answers: AnswersNeeded }[];
}

export interface Repeat {
  /** what is felt, or read on a gauge, when it is enough: the middle of a sentence, as is `stop` */
  readonly until: string;
  /** what says that it is too much */
  readonly stop: string;
  readonly byGauge: boolean;
  /** answers with which it stands far off: all of one of these */
  readonly far: readonly AnswersNeeded[];
}
