/** A change that was ridden, by name → what it does to the causes. */
import type { Bench } from '../advice/bench.ts';
import type { Model } from '../diagnosis/model.ts';
import type { ChangeEffect } from '../diagnosis/results.ts';
import { splitChange } from './change-name.ts';

/**
 * The effect of a change in notation, or of an adjustment by id. A part is matched with the adjustment that turns the
 * same setting the same way; a smaller step than that adjustment's does a smaller share.
 * @returns undefined when no adjustment of the rules turns that setting that way
 */
export function riddenEffect(model: Model, bench: Bench, change: string): ChangeEffect | undefined {
  const { adjustments, causes } = model.rules;
  const named = adjustments.findIndex((a) => a.id === change);
  if (named >= 0) return bench.effect(named);
  const cures = new Float64Array(causes.length);
  const brings = new Float64Array(causes.length);
  for (const part of change.split(',')) {
    const name = splitChange(part);
    if (name === undefined) return undefined;
    const index = adjustments.findIndex(
      (a) => a.change?.setting === name.setting && Math.sign(a.change.by) === Math.sign(name.by),
    );
    if (index < 0) return undefined;
    const rule = adjustments[index]!.change!;
    const sameUnit =
      name.unit === '' || rule.unit.startsWith(name.unit) || name.unit.startsWith(rule.unit.slice(0, -1));
    const share = sameUnit ? Math.min(1, Math.abs(name.by / rule.by)) : 1;
    const effect = bench.effect(index);
    for (let c = 0; c < causes.length; c++) {
      cures[c] = Math.max(cures[c]!, share * effect.cures[c]!);
      brings[c] = Math.max(brings[c]!, share * effect.brings[c]!);
    }
  }
  return { cures, brings };
}
