/** The way back from a change that made it worse and is still on the bike, and when it comes before any other step. */
import type { Change } from '../bike/change.ts';
import { amountIn } from '../bike/change.ts';
import { unmeasured, type Situation } from './hold-back.ts';

export interface WayBack {
  /** chance that it cures something that is off, and that it spoils something */
  readonly helps: number;
  readonly harms: number;
  /** what is turned for it, the way it is turned */
  readonly steps: readonly Change[];
  /** whether it is known how far */
  readonly counted: boolean;
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
 * Whether it comes first: what is known to have made it worse goes before what is guessed, but not where the best step is far
 * likelier to cure it, nor where the gauge of what was changed was read and speaks for the change. Back to the maker's pressure
 * is a known state: that waits only for a step that should fix it.
 * @param cure how likely the best other step cures something; 0: there is none
 */
export function leads(s: Situation, back: WayBack, cure: number): boolean {
  if (isTowardMakers(s, back) && cure < s.model.rules.numbers.advice['should-fix']) return true;
  if (back.helps < s.model.rules.numbers.advice['put-back'] * cure) return false;
  const { adjustments } = s.model.rules;
  const gauged = likeAdjustments(s, back).filter((index) => adjustments[index]!.measureFirst.length > 0);
  const read = gauged.length > 0 && gauged.every((index) => unmeasured(s, adjustments[index]!) === undefined);
  return !read || back.helps > back.harms;
}

/** Whether it goes toward the maker's pressure, which the change left. */
function isTowardMakers({ known }: Situation, { steps }: WayBack): boolean {
  return steps.some(({ setting, by }) => {
    const [end, what] = setting.split('.');
    return what === 'spring' && known?.bike(`${end}.pressure`) === (by > 0 ? 'under' : 'over');
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
    if (gauge !== undefined) return gauge;
  }
  return undefined;
}
