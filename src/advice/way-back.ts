/** The way back from a change that made it worse and is still on the bike, and when it comes before any other step. */
import { type Change, amountIn } from '../bike/change.ts';
import type { Adjustment } from '../rulebase/compiled-adjustment.ts';
import { isMeasured, isOnSheet, unmeasured, type Situation } from './hold-back.ts';
import { reasonIn } from '../rulebase/reasons.ts';
import { adjustmentFor } from './best-of.ts';
import type { Because } from './put-first.ts';

export interface WayBack {
  /** chance that it cures something that is off, and that it spoils something */
  readonly helps: number;
  readonly harms: number;
  /** chance of the likeliest cause that the change may have brought, of each end that it can have been at added up */
  readonly likely: number;
  /** what is turned for it, the way it is turned */
  readonly steps: readonly Change[];
  /** whether it is known how far */
  readonly counted: boolean;
  /** what the rider said that came of it; good: nothing, but a trial kept where it stood before */
  readonly after: 'worse' | 'same' | 'good';
  /** it made something else better: then it goes back only where that is likelier to help than to harm */
  readonly trade?: boolean;
}

/** The adjustments of the rules that turn one of its settings the same way: it has their gauges and their dangers. */
export function likeAdjustments(
  { bench }: Pick<Situation, 'bench'>,
  { steps }: Pick<WayBack, 'steps'>,
): number[] {
  return bench.rules.adjustments.flatMap(({ change }, index) =>
    bench.possible[index]!.can &&
    steps.some(({ setting, by }) => change?.setting === setting && Math.sign(change.by) === Math.sign(by))
      ? [index]
      : [],
  );
}

/**
 * What goes back before anything else: what made it worse, else of what made no difference the likeliest to help.
 * @param best the best other step, by index, and how likely it cures something; undefined and 0: there is none; `isUntold`:
 *   what was said fits no cause of the rules
 */
export function leadingBack(
  s: Situation,
  { back, left }: { readonly back?: WayBack | undefined; readonly left?: readonly WayBack[] | undefined },
  best: { readonly wanted: number | undefined; readonly cure: number; readonly isUntold?: boolean },
): WayBack | undefined {
  return back !== undefined && isLikelyEnough(s, back) && leads(s, back, best.cure)
    ? back
    : left?.find((one) => leadsUnhelped(s, one, best));
}

/** Whether anything that it may have brought is likely enough to be named at all: known state or not, less leads no card. */
function isLikelyEnough({ model: { rules } }: Situation, { likely }: WayBack): boolean {
  return likely >= rules.numbers.advice['least-cure'];
}

/**
 * Whether it comes first: what is known to have made it worse goes before what is guessed, but not where the best step is far
 * likelier to cure it, nor where the gauge of what was changed was read and speaks for the change. Back to the maker's pressure
 * is a known state: that waits only for a step that should fix it.
 * @param cure how likely the best other step cures something; 0: there is none
 */
function leads(s: Situation, back: WayBack, cure: number): boolean {
  if (isTowardMakers(s, back) && cure < s.model.rules.numbers.advice['should-fix']) return true;
  if (back.helps < s.model.rules.numbers.advice['put-back'] * cure) return false;
  return (!isGaugeRead(s, back) && back.trade !== true) || back.helps > back.harms;
}

/**
 * Whether what made no difference and is still on goes back before all else: where nothing else is to be done, where the best
 * step turns the same thing back a part of the way, where it may well be itself what is felt, or where a gauge is read before
 * it goes back beside that step.
 * @param wanted the best other step, by index; undefined: there is none
 * @param cure how likely that cures something
 */
function leadsUnhelped(
  s: Situation,
  back: WayBack,
  { wanted, cure, isUntold = false }: Parameters<typeof leadingBack>[2],
): boolean {
  // Where no cause fits, what it was for is no reason to leave it on: from a known state the next ride tells more.
  if (isUntold ? isMakers(s, back) : staysOn(s, back)) return false;
  if (wanted === undefined) return isLikelyEnough(s, back);
  const { adjustments, numbers } = s.model.rules;
  // How far a spring goes is told by its gauge, where the sheet has it.
  const { measureFirst } = adjustments[wanted]!;
  const told = measureFirst.some(({ question }) => isOnSheet(s, question));
  if (!told && likeAdjustments(s, back).includes(wanted)) return true;
  if (goesBeside(adjustments[wanted]!, back) && gaugeBefore(s, back) !== undefined) return true;
  return back.helps >= numbers.advice['should-fix'] && back.helps > back.harms && leads(s, back, cure);
}

/** Whether it would go back before that step: not before a look or a repair, nor where that turns the same thing. */
function goesBeside({ kind, change }: Adjustment, { steps }: WayBack): boolean {
  return kind !== 'measure' && kind !== 'repair' && steps.every(({ setting }) => setting !== change?.setting);
}

/**
 * Whether what made no difference stays: its gauge was read and does not speak against it, nor does the maker's pressure that it
 * left; what it was for is likelier than not and likelier than what it brings; or it is the maker's pressure that it went to.
 */
export function staysOn(s: Situation, back: WayBack): boolean {
  const { likely } = s.model.rules.numbers.advice['against-test'];
  if (isMakers(s, back)) return true;
  if (back.harms <= back.helps) return false;
  return back.harms >= likely || (isGaugeRead(s, back) && !isTowardMakers(s, back));
}

/** Whether it is the maker's pressure that the change went to. */
function isMakers(s: Situation, back: WayBack): boolean {
  return back.steps.some(({ setting }) => {
    const [end, what] = setting.split('.');
    return what === 'spring' && pressureAt(s, end!) === 'chart';
  });
}

/** Where the pressure of an end stands against the maker's: chart, under or over; by the sheet, else by what was read off a gauge. */
function pressureAt({ model: { rules }, known }: Situation, end: string): string | undefined {
  const onSheet = known?.bike(`${end}.pressure`);
  if (onSheet !== undefined) return onSheet;
  const asked = rules.questions.find((q) => q.end === end && q.gauge?.reads === 'spring');
  const said = known?.answers.get(asked?.id ?? '');
  const { below, near, above } = asked?.gauge?.answers ?? {};
  if (said === undefined) return undefined;
  return said === below ? 'under' : said === above ? 'over' : said === near ? 'chart' : undefined;
}

/** Whether every gauge that such a step waits for was read; of one that only some answers ask for, that it is not asked for says nothing. */
function isGaugeRead(s: Situation, back: WayBack): boolean {
  const gauged = likeAdjustments(s, back).flatMap((index) => {
    const adjustment = s.model.rules.adjustments[index]!;
    return adjustment.measureFirst.length > 0 ? [adjustment] : [];
  });
  const isRead = (a: Adjustment): boolean =>
    unmeasured(s, a) === undefined && a.measureFirst.some(({ question }) => isMeasured(s, question));
  return gauged.length > 0 && gauged.every(isRead);
}

/** Whether it goes toward the maker's pressure, which the change left. */
function isTowardMakers(s: Situation, { steps }: WayBack): boolean {
  return steps.some(({ setting, by }) => {
    const [end, what] = setting.split('.');
    return what === 'spring' && pressureAt(s, end!) === (by > 0 ? 'under' : 'over');
  });
}

/** The gauge to read before it: more than one usual step of what a gauge tells of is not taken back unread. */
export function gaugeBefore(s: Situation, back: WayBack): string | undefined {
  if (!back.counted) return undefined;
  const { adjustments } = s.model.rules;
  for (const index of likeAdjustments(s, back)) {
    const { change } = adjustments[index]!;
    const far = back.steps.some(
      (step) =>
        step.setting === change!.setting &&
        Math.abs(amountIn(step, change!.unit) ?? 0) > Math.abs(change!.by),
    );
    const gauge = far ? unmeasured(s, adjustments[index]!) : undefined;
    // Who cannot read it goes back unread: it was ridden so before.
    if (gauge !== undefined && s.known?.cannotTell?.has(gauge) !== true) return gauge;
  }
  return undefined;
}

const WHY_BACK = { worse: 'worse-still-on', same: 'same-still-on', good: 'was-good' } as const;

/** Position of the step that takes it back; -1 where the rules have none. */
export function homeOf(s: Situation, { after }: WayBack): number {
  return adjustmentFor(
    s,
    (a) => a.kind === 'put-back' && (a.after ?? (after === 'good' ? undefined : after)) === after,
  );
}

export interface Held {
  readonly position: number;
  readonly because: Because;
  readonly insteadOf?: { readonly adjustment: number; readonly why: string };
  /** what is not named behind it until it was done; absent: nothing */
  readonly until?: (adjustment: Adjustment) => boolean;
}

/** What did not help and is still there, before anything is added to it; undefined where no rule can put back. */
export function backFirst(
  s: Situation,
  back: WayBack,
  { wanted, home }: { readonly wanted: number | undefined; readonly home: number },
): Held | undefined {
  if (home < 0) return undefined;
  const { adjustments } = s.bench.payoff;
  const gauge = gaugeBefore(s, back);
  const reading = gauge === undefined ? -1 : adjustmentFor(s, ({ reads }) => reads === gauge);
  if (reading >= 0)
    return {
      position: reading,
      because: 'measure-first',
      insteadOf: { adjustment: adjustments[home]!, why: reasonIn(s.model.rules.reasons, 'measure-first') },
    };
  return {
    position: home,
    because: 'put-back',
    ...(wanted === undefined
      ? {}
      : {
          insteadOf: {
            adjustment: adjustments[wanted]!,
            why: reasonIn(s.model.rules.reasons, WHY_BACK[back.after]),
          },
        }),
  };
}
