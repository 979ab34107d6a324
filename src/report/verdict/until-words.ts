/** How often a step is repeated where the sheet says that one is not enough. */
import type { Change } from '../../bike/change.ts';
import { sagOnRide } from '../../bike/sag-on-ride.ts';
import { rowFor } from '../../bike/settings.ts';
import { ENDS, type BikeSheet } from '../../bike/sheet.ts';

/** Sag this far off, as a share of the travel, takes more than one step (judgement). */
const FAR = 0.03;

/** `then measure sag again, and repeat until it is 28 %`; undefined where one step is enough, or nothing is known. */
export function untilWords(step: Change, sheet: BikeSheet): string | undefined {
  const row = rowFor(step, sheet.settings);
  const end = ENDS.find((one) => one === row?.end);
  const dial = row?.dial(sheet, step);
  if (row === undefined || dial === undefined || 'message' in dial) return undefined;
  if (dial.stale.includes('sag.measured') && end !== undefined) {
    const { sagWanted } = sheet.ends[end];
    const sag = sagOnRide(sheet.ends[end]);
    if (sag === undefined || sagWanted === undefined) return undefined;
    if (Math.abs(sag - sagWanted) < FAR) return undefined;
    const limit = step.by < 0 ? dial.min : dial.max;
    const left = dial.now === undefined ? Infinity : (limit - dial.now - step.by) * Math.sign(step.by);
    // Where the step ends at the limit there is nothing to repeat.
    return left < dial.grain
      ? 'then measure sag again'
      : `then measure sag again, and repeat until it is ${Math.round(sagWanted * 100)} %`;
  }
  const { now, wanted, maker, unit } = row.shown(sheet) ?? {};
  if (now === undefined || unit !== step.unit) return undefined;
  if (unit === 'clicks' && maker !== undefined) {
    const left = (maker - now) * Math.sign(step.by);
    return left > Math.abs(step.by) && left > 2
      ? `if that is better, repeat towards the manufacturer's ${maker}`
      : undefined;
  }
  if (wanted === undefined) return undefined;
  const left = wanted - now;
  const more = Math.sign(left) === Math.sign(step.by) && Math.abs(left) > Math.abs(step.by) + 1e-6;
  return more ? `repeat until it is ${Math.round(wanted * 100) / 100} ${unit}` : undefined;
}
