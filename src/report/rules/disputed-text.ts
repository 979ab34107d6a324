/** Links that heads dispute, as a table. */
import type { Disputed } from '../../evaluation/estimates.ts';
import { printable } from '../foreign-text.ts';
import { page, type Style } from '../style.ts';
import { paragraph } from '../wrap.ts';

const MOST = 120;

/** @param links how many there are in all */
export function disputedText(list: readonly Disputed[], links: number, style: Style): string {
  const lines = list.flatMap(({ id, percents, pooled, spread, inRules }) => [
    paragraph(printable(id, MOST), style.width),
    paragraph(
      `spread ${spread.toFixed(2)}; heads ${percents.map((p) => (p > 0 ? String(p) : '-')).join(', ')} %; pooled ${(100 * pooled).toFixed(0)} %; in the rules ${inRules === undefined ? 'not said' : `${(100 * inRules).toFixed(1)} %`}`,
      style.width,
      '    ',
    ),
  ]);
  const head = paragraph(
    `The ${list.length} most disputed of ${links} estimates. Spread: standard deviation of the log odds. "-": a head did not name the cause. The rules hold a link without what the base rate brings.`,
    style.width,
  );
  return page([head, '', ...lines], style);
}
