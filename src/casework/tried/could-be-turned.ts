/** What of a change somebody tells of can have been turned on this bike. */
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import { type Change, aspect } from '../../bike/change.ts';
import { dialOf } from '../../bike/settings.ts';
import { ENDS, isRigid, type End } from '../../bike/sheet.ts';
import type { Tried } from '../case.ts';

/** @returns why this bike cannot have been turned so, in a sentence; undefined where it can */
export function denied(bench: PreparedBike, change: Change): string | undefined {
  const { setting, by, unit } = change;
  const { sheet } = bench;
  const end = setting.split('.')[0] as End;
  const other = otherSpring(bench, change);
  if (other !== undefined || sheet === undefined) return other;
  const dial = dialOf(sheet, { setting, unit });
  if ('message' in dial) {
    if (dial.unsaid === true) return undefined;
    if (ENDS.includes(end) && isRigid(sheet, end) && !setting.endsWith('.tyre'))
      return `${setting}: the ${end} of this bike has no suspension.`;
    // A number that is not written down denies nothing; a part that is not there does.
    return dial.unfit === true || unit === 'clicks' || unit === 'positions'
      ? `${setting}: ${dial.message}`
      : undefined;
  }
  const room = dial.max - dial.min;
  return Math.abs(by) > room + 1e-9
    ? `${setting}: ${Math.abs(by)} ${unit} is more than there are; its whole range is ${Number(room.toFixed(3))}.`
    : undefined;
}

/**
 * Of the circuits that one name leaves open, those whose knob this bike has, and that stands where it must stand if it was
 * the one that was turned: a knob that was opened three clicks, and still is, is at least three from closed. All of them
 * where that leaves none.
 */
export function couldBeTurned(
  { sheet, rules, possible }: PreparedBike,
  { by, putBack }: Tried,
  changes: readonly Change[],
): Change[] {
  const has = ({ setting }: Change): boolean =>
    !rules.adjustments.some(({ change }, i) => {
      const can = possible[i]!;
      return change?.setting === setting && !can.can && can.unfit;
    });
  const hasRoom = (change: Change): boolean => {
    const dial = sheet === undefined ? undefined : dialOf(sheet, change);
    if (by === undefined || putBack !== 'no' || dial === undefined || 'message' in dial) return true;
    const before = dial.now === undefined ? undefined : dial.now - change.by;
    return before === undefined || (before >= dial.min - 1e-9 && before <= dial.max + 1e-9);
  };
  let left = [...changes];
  for (const test of [has, hasRoom]) {
    const some = left.filter(
      (one) => test(one) || !left.some((other) => other !== one && stemOf(other) === stemOf(one)),
    );
    if (some.length > 0) left = some;
  }
  return left;
}

/** `front.rebound.low` → `front.rebound`: what a rider calls the knob who names no circuit. */
export function stemOf({ setting }: Change): string {
  return setting.slice(0, setting.lastIndexOf('.'));
}

/** @returns why it cannot have been turned there; undefined where it can, or nobody said which kind of spring it is */
export function otherSpring({ fact }: PreparedBike, { setting, unit }: Change): string | undefined {
  const end = ENDS.find((one) => setting === `${one}.spring` || setting === `${one}.ramp-up`);
  if (end === undefined) return undefined;
  const of = aspect(unit);
  const kind = fact(`${end}.spring`);
  if (kind === 'air' && of !== 'pressure' && of !== 'spacers')
    return `${setting}: the ${end} of this bike has an air spring; there is no collar to turn and no coil.`;
  if (kind === 'coil' && (of === 'pressure' || of === 'spacers'))
    return `${setting}: the ${end} of this bike has a coil spring; there is no air in it to change.`;
  return undefined;
}
