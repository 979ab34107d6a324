/** The rule base after compiling: plain JSON, every id resolved, every word a number, one entry an end. */
import type { SheetAsks } from '../bike/form/new-steps.ts';
import type { Reasons } from './reasons.ts';
import type { SheetTrade } from '../bike/check/sheet-check.ts';
import type { Gauge } from '../bike/gauge/gauge.ts';
import type { OwnSetting } from '../bike/own-setting.ts';
import type { End } from '../bike/sheet.ts';
import type { Numbers } from './numbers-schema.ts';
import type { PackFile, RideRules } from './schema/pack.ts';
import type { Source } from './schema/parts.ts';
import type { Concept, EndNames, Judged, Phrase, Opening } from './compiled-phrases.ts';
import type { Adjustment } from './compiled-adjustment.ts';

/** Raised whenever the compiled form or the compiler changes, so that no stale cache is ever used. */
export const COMPILED_FORMAT = 26;

/** Answers that every question has beside its own: remembered, but no evidence. */
export const CANNOT_TELL = 'cannot-tell';

/** Put off to a ride or the stand: the question stays open. */
export const NOT_NOW = 'not-now';

/** Stands for the end in a question's id when the rider does not know the end. */
export const EITHER = 'either';

/** The question at an end unknown, for one at an end: `x@front` → `x@either`. */
export function atEither(question: string): string {
  // Not by a pattern: it is asked thousands of times a case.
  if (question.endsWith('@front')) return `${question.slice(0, -5)}${EITHER}`;
  return question.endsWith('@rear') ? `${question.slice(0, -4)}${EITHER}` : question;
}

/** The question whatever its end: `x` for `x@front`. */
export function withoutEnd(question: string): string {
  const at = question.indexOf('@');
  return at < 0 ? question : question.slice(0, at);
}

export interface CompiledRules {
  readonly format: number;
  readonly packs: readonly { readonly name: string; readonly version: string }[];
  /** hash of the rule files it was made from */
  readonly digest: string;
  readonly numbers: Numbers;
  /** frequency word → probability, 0..1 */
  readonly scale: Readonly<Record<string, number>>;
  readonly settings: readonly Setting[];
  /** the rows that these packs add to the settings table of a bike */
  readonly adjusters: readonly OwnSetting[];
  readonly causes: readonly Cause[];
  readonly questions: readonly Question[];
  readonly adjustments: readonly Adjustment[];
  readonly cautions: readonly Caution[];
  readonly concepts: readonly Concept[];
  readonly endNames: readonly EndNames[];
  /** question without its end → how readings of it were judged; empty: none were, and none is too doubtful to offer */
  readonly heard: Readonly<Record<string, Judged>>;
  readonly words: readonly Phrase[];
  readonly glossary: readonly {
    readonly term: string;
    readonly means: string;
    readonly see?: readonly string[];
    /** phrases in which the word means something else */
    readonly notIn?: readonly string[];
  }[];
  readonly openings: readonly Opening[];
  /** what a bike sheet is checked for, and told */
  readonly sheetCheck: SheetTrade;
  /** how a new bike sheet is asked for */
  readonly sheetAsks: SheetAsks;
  /** why a step goes no further, waits or is passed over */
  readonly reasons: Reasons;
  /** how a trial is ridden, a line a rule */
  readonly rideRules: RideRules;
  /** what is rated after every run of a trial: those of the last pack that has any */
  readonly feelings: NonNullable<PackFile['feelings']>;
  /** what to check where a step for the likeliest cause was tested in vain: that of the last pack that has it */
  readonly againstTest?: string;
  /** said where the bike is left as it is: what would be a sign that something is off all the same */
  readonly leftAlone?: string;
  /** what becomes of a number that a gauge read off its target, where nothing that is felt speaks for a change */
  readonly offTarget?: string;
  /** said beside a figure that is only usual: that of the last pack that has it */
  readonly usualNote?: string;
  /** words in a row with which somebody speaks of what he might do */
  readonly onlyThought: readonly string[];
  /** retired id → its heir */
  readonly retired: Readonly<Record<string, string>>;
}

/** Where an entry stands and how far it is trusted. */
export interface Standing {
  readonly source: Source;
  readonly status: 'draft' | 'trial' | 'disputed' | 'settled' | 'retired';
  /** file:line */
  readonly at: string;
}

export interface Setting extends Standing {
  readonly id: string;
  readonly end?: End;
  readonly name: string;
  readonly plain: string;
  /** other words where the end's only rebound knob acts on both circuits */
  readonly oneKnob?: Partial<Pick<Setting, 'name' | 'plain'>>;
  readonly kind: 'damper' | 'spring' | 'ramp-up' | 'tyre' | 'condition' | 'cockpit' | 'rider';
  readonly sheet?: 'clicks' | 'sag' | 'tyre';
  /** the path of its row below the end: a knob of the damper, or the key of a row of the pack's own */
  readonly adjuster?: string;
  /** where it usually is, in a sentence for a rider */
  readonly where?: string;
  readonly partner?: string;
  /** the setting that is put back in the same go, where a change of both made it worse */
  readonly putBackWith?: string;
  /** other names under which it may stand where something was tried, with the end: `front.pressure` */
  readonly called?: readonly string[];
  /** what riders call turning it → the direction that is taken away by it */
  readonly ways?: Readonly<Record<string, string>>;
  /** the springs of the ends that have it, where it is a part of the suspension but nothing that is tuned */
  readonly springs?: readonly string[];
  /** indices into causes, one a direction */
  readonly causes: readonly number[];
}

/** Whether a setting is a part of the suspension of its end: what an end without suspension lacks. */
export function isSuspension({ kind, springs }: Pick<Setting, 'kind' | 'springs'>): boolean {
  return kind === 'damper' || kind === 'spring' || kind === 'ramp-up' || springs !== undefined;
}

export interface Cause {
  /** words for this and the same direction of the partner together, where this one is the likelier */
  readonly pair?: { readonly name: string; readonly plain: string };
  /** other words where the end's only rebound knob acts on both circuits */
  readonly oneKnob?: Partial<Pick<Cause, 'name' | 'plain'>>;
  readonly id: string;
  /** index into settings */
  readonly setting: number;
  readonly direction: string;
  readonly name: string;
  readonly plain: string;
  /** prior probability that it is off, scaled so that all of them add up to `expected-causes` */
  readonly prior: number;
  /** id of the caution that is said while it is likely, whatever comes first */
  readonly whileLikely?: string;
  readonly reads?: 'low' | 'high';
}

export interface Gate {
  /** a question id, or `bike` + a path on the bike sheet */
  readonly on: 'question' | 'bike';
  readonly id: string;
  readonly values: readonly string[];
  /** it does not wait for the answer: only another one shuts it */
  readonly lax?: true;
}

/** [cause index, answer index, probability that this cause alone makes a rider notice this sign] */
export type Link = readonly [cause: number, answer: number, strength: number];

export interface DangerWith {
  readonly caution: string;
  /** question → the answers to it that make this one dangerous */
  readonly beside: Readonly<Record<string, readonly string[]>>;
}

/** What an answer says of an end that no sheet tells of. */
export interface ToldOfEnd {
  readonly spring?: 'air' | 'coil';
  readonly preload?: 'beyond';
}

export interface Question extends Standing {
  /** other words where the end's only rebound knob acts on both circuits */
  readonly oneKnob?: Partial<Pick<Question, 'ask' | 'plain' | 'help'>>;
  readonly id: string;
  readonly end?: End;
  readonly ask: string;
  readonly plain: string;
  readonly help: string;
  readonly how: 'recall' | 'stand' | 'ride';
  readonly minutes: number;
  readonly topic: string;
  /** topic, end and trust class: the answers that share one trust */
  readonly group: string;
  readonly gates: readonly Gate[];
  readonly safety: boolean;
  /** asked before all but the safety questions once any of these was answered, or tried with that result */
  readonly earlyWhen?: readonly {
    readonly on: 'question' | 'tried';
    readonly id: string;
    readonly values: readonly string[];
  }[];
  /** answer id → caution id */
  readonly dangerous: Readonly<Record<string, string>>;
  /** answers that stop all tuning beside an answer to another question only: any one of these pairs is enough */
  readonly dangerousWith?: Readonly<Record<string, DangerWith>>;
  /** dangerous answer → question → the answers that say it is no danger after all */
  readonly harmlessWhen?: Readonly<Record<string, DangerWith['beside']>>;
  /** answer → caution that is shown with it, whatever is advised; it stops nothing */
  readonly cautions?: Readonly<Record<string, string>>;
  /** indices of the answers that no sound bike gives: while one stands, nothing is left alone */
  readonly neverNormal?: readonly number[];
  /** what was there before or beside it: no complaint */
  readonly circumstance?: true;
  /** answer → the rider's mass with kit, kg, below or above which it is given by the mass alone */
  readonly byMass?: Readonly<Record<string, { readonly below?: number; readonly above?: number }>>;
  /** answer → what it says of its end on a bike without a sheet; absent: what its gates on the spring say */
  readonly tells?: Readonly<Record<string, ToldOfEnd>>;
  /** answers after which it is asked what was changed, which way, how far and what it did */
  readonly asksTried?: readonly string[];
  /** answer → the settings, without their end, that own words tell the turning of */
  readonly toldChange?: Readonly<Record<string, readonly string[]>>;
  readonly measures?: string;
  /** id of the setting it asks about, roughly: not asked where the sheet has the number and the maker's figure */
  readonly onSheet?: string;
  /** what it makes of a number */
  readonly gauge?: Gauge;
  /**
   * The same question at the front and at the rear, by index: this one takes an answer whose end is not known. It is never
   * asked, and has no strengths of its own.
   */
  readonly either?: readonly [front: number, rear: number];
  readonly answers: readonly { readonly id: string; readonly text: string }[];
  /** answer id → what it says, as one sentence; only what the rules word so */
  readonly says?: Readonly<Record<string, string>>;
  /** index of the answer given when no sign is noticed */
  readonly default: number;
  readonly several: 'cancel' | 'any' | number;
  /** several answers may be given */
  readonly list?: true;
  /** answer id → question id → answer id that goes without saying */
  readonly implies: Readonly<Record<string, Readonly<Record<string, string>>>>;
  /** base rate of each answer as a sign; 0 for the default */
  readonly base: readonly number[];
  readonly links: readonly Link[];
  readonly assignment?: string;
  readonly confusable: readonly { readonly id: string; readonly tell: string }[];
  readonly physics?: {
    readonly scenario: string;
    readonly metric: string;
    readonly sign: 'up' | 'down';
    readonly answer: number;
    readonly disagree: Readonly<Record<string, string>>;
  };
}

export interface Caution extends Standing {
  readonly id: string;
  readonly level: 'note' | 'care' | 'stop';
  readonly text: string;
  /** its words where all that was told is of one end */
  readonly textAt?: Readonly<Record<End, string>>;
  readonly show: 'always' | 'with' | 'alone';
}
