/** Whether what was tried belongs to the kind of spring that this bike has not. */
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import { aspect, type Change } from '../../bike/change.ts';
import { ENDS } from '../../bike/sheet.ts';

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
