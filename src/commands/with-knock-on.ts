/** A result with what the model of the bike says of each change. */
import type { BikeSheet } from '../bike/sheet.ts';
import { changeOf } from '../report/result-adjustment.ts';
import type { Result } from '../report/result.ts';
import type { Desk } from './desk.ts';

/**
 * What the model of the bike says a change does, added to what the rule says.
 * @param all of every change; else of the one to do first alone, because the model takes longer than all the rest
 */
export async function withKnockOn(
  result: Result,
  desk: Desk,
  sheet: BikeSheet | undefined,
  all: boolean,
): Promise<Result> {
  const adjustments = await Promise.all(
    result.adjustments.map(async (a, place) => {
      const change = place === 0 || all ? changeOf(a) : undefined;
      if (change === undefined) return a;
      return { ...a, knockOn: [...a.knockOn, ...(await desk.knockOn(sheet, change))] };
    }),
  );
  return { ...result, adjustments };
}
