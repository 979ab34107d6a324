/** How much room a step has: up to a stop, a limit of the sheet, or the most that an air spring may hold. */
import type { Dial } from '../../bike/dial/dial.ts';
import { dialOf } from '../../bike/settings.ts';
import { ENDS, type BikeSheet } from '../../bike/sheet.ts';
import { siPer, writeQuantity } from '../../bike/units.ts';
import { withoutStop } from '../../form/text.ts';
import type { Adjustment } from '../../rulebase/compiled-adjustment.ts';
import { reasonIn, type Reasons } from '../../rulebase/reasons.ts';
import type { Possibility, Step } from '../feasibility.ts';

/** The share of the most an air spring may hold from which it is near, and what is said then. */
interface NearMost {
  readonly 'near-most'?: number | undefined;
  readonly reasons?: Reasons | undefined;
}

/**
 * Another step of the same adjustment, as far as the bike has room for it.
 * @param step without where it begins and ends, which is read off the sheet
 */
export function asFarAs(
  adjustment: Adjustment,
  sheet: BikeSheet | undefined,
  step: Omit<Step, 'from' | 'to'>,
  near: NearMost,
): Possibility {
  if (sheet === undefined || adjustment.change === undefined) return { can: true, step };
  const can = roomFor(sheet, step, near.reasons, adjustment.change);
  if (!can.can) return can;
  const limit = nearMost(adjustment, sheet, near, can.step?.to);
  const notes = [can.note, limit].filter((note) => note !== undefined);
  return notes.length === 0 ? can : { ...can, note: notes.join('; ') };
}

/**
 * Any step as far as the bike has room for it; whole where nobody wrote down where it stands.
 * @param change the rule that it is of, which may keep away from the lower end; absent: of none
 */
export function roomFor(
  sheet: BikeSheet | undefined,
  step: Omit<Step, 'from' | 'to'>,
  reasons: Reasons | undefined,
  change: Adjustment['change'] = undefined,
): Possibility {
  const dial = sheet === undefined ? undefined : dialOf(sheet, step);
  if (dial === undefined || 'message' in dial) return { can: true, step };
  return within(step, change === undefined ? dial : boundedBy(change, dial), reasons);
}

/**
 * The most the air spring may hold, where a step that wants more of it, or fills it again, is made near that or ends there.
 * @param to where the step ends, in the unit of the sheet
 */
export function nearMost(
  { kind, change }: Pick<Adjustment, 'kind' | 'change'>,
  { ends, units }: BikeSheet,
  { 'near-most': share = Infinity, reasons }: NearMost = {},
  to?: number,
): string | undefined {
  if (change === undefined || change.by < 0 || (kind !== 'pressure' && kind !== 'spacer')) return undefined;
  const end = ENDS.find((one) => change.setting.startsWith(`${one}.`));
  if (end === undefined) return undefined;
  const { spring } = ends[end];
  if (spring.kind !== 'air' || spring.pressure === undefined || spring.pressureMax === undefined)
    return undefined;
  const after = kind === 'pressure' && to !== undefined ? to * siPer(units.pressure) : 0;
  if (Math.max(spring.pressure, after) < share * spring.pressureMax) return undefined;
  const [now, most] = [spring.pressure, spring.pressureMax].map((p) => writeQuantity(p, units.pressure));
  return reasonIn(reasons, 'near-most', { most: most!, now: now! });
}

/** A dial whose rule keeps away from its lower end. */
export function boundedBy({ notBelow: least }: NonNullable<Adjustment['change']>, dial: Dial): Dial {
  return least === undefined || dial.min >= least
    ? dial
    : {
        ...dial,
        min: least,
        minIs: `the least it should have, ${least} ${least === 1 ? dial.unit.replace(/s$/, '') : dial.unit}`,
      };
}

/** As far as it goes before its stop or its limit, or why it goes no further. */
export function within(asked: Step, dial: Dial, reasons: Reasons | undefined): Possibility {
  const { now, at, min, max, minIs, maxIs, grain } = dial;
  const limit = asked.by < 0 ? minIs : maxIs;
  const ended: Possibility = { can: false, why: reasonIn(reasons, 'at-limit', { limit }), unfit: false };
  if (at !== undefined && at === (asked.by < 0 ? 'min' : 'max')) return ended;
  if (now === undefined)
    return { can: true, step: asked, ...(at === undefined ? { note: countNote(dial, reasons) } : {}) };
  const to = Number(Math.min(max, Math.max(min, now + asked.by)).toFixed(3));
  // Outside its limits already and to be moved further out, or no room for the smallest step that can be set.
  const room = (to - now) * Math.sign(asked.by);
  if (room < grain - 1e-9) return ended;
  const step = {
    ...asked,
    by: Number((to - now).toFixed(3)),
    from: now,
    to,
    ...(dial.names === undefined ? {} : { names: dial.names }),
  };
  // A switch is moved as far as it goes: that is what was meant.
  return Math.abs(step.by - asked.by) < 1e-9 || dial.names !== undefined
    ? { can: true, step }
    : { can: true, step, note: reasonIn(reasons, 'range-left', { limit }) };
}

/** How to find out where it stands; where its clicks are known, where it stands among them says how many make one step. */
function countNote({ unit, limited, toFindOut }: Dial, reasons: Reasons | undefined): string {
  const find = withoutStop(toFindOut);
  return unit === 'clicks' && limited.max ? reasonIn(reasons, 'size-open', { find }) : find;
}
