/** A result with what the model of the bike says of each change. */
import type { BikeKind, BikeSheet } from '../bike/sheet.ts';
import { changeOf, type Result } from '../report/result/result.ts';
import type { Workspace } from './workspace.ts';

/** Lines of the model to a change, where all are shown. */
const MOST_LINES = 5;

/**
 * What the model of the bike says a change does, added to what the rule says.
 * @param sheet that of the bike, or the kind of a usual one, or neither
 * @param shown how many lines to a change are shown, the rule's own first; the model takes longer than all the rest, so it
 *   runs for the change to do first alone, and for no more than these; undefined: all lines of every change
 */
export async function withKnockOn(
  result: Result,
  workspace: Workspace,
  { sheet, kind }: { readonly sheet: BikeSheet | undefined; readonly kind?: BikeKind | undefined },
  shown?: number,
): Promise<Result> {
  const adjustments = await Promise.all(
    result.adjustments.map(async (a, place) => {
      const change = place === 0 || shown === undefined ? changeOf(a) : undefined;
      if (change === undefined) return a;
      const most = shown === undefined ? MOST_LINES : Math.min(MOST_LINES, shown - a.knockOn.length);
      return { ...a, knockOn: [...a.knockOn, ...(await workspace.knockOn(sheet, change, most, kind))] };
    }),
  );
  return { ...result, adjustments };
}
