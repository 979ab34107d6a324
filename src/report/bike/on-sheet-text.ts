/** What the sheet says already of the setting that a question is about. */
import { rowsOf } from '../../bike/settings.ts';
import type { BikeSheet } from '../../bike/sheet.ts';
import { asRead } from '../../bike/units.ts';

/** `On the sheet: 8 of 12 clicks from closed.`; undefined where the sheet has no number for it. */
export function onSheetText(sheet: BikeSheet | undefined, setting: string | undefined): string | undefined {
  if (sheet === undefined || setting === undefined) return undefined;
  const row = rowsOf(sheet.settings).find(
    (one) => (one.reading === undefined ? one.setting : one.stand) === setting,
  );
  const shown = row?.shown(sheet);
  if (shown?.now === undefined) return undefined;
  const { now, of, unit, names } = shown;
  if (names !== undefined) return `On the sheet: ${names[now] ?? String(now)}.`;
  const all = of === undefined ? '' : ` of ${asRead(of, unit)}`;
  // A rear is read off the shock.
  if (unit === '%')
    return `On the sheet: ${asRead(now, unit)} % of the ${row?.end === 'rear' ? "shock's stroke" : 'travel'}.`;
  return `On the sheet: ${asRead(now, unit)}${all} ${unit}${unit === 'clicks' ? ' from closed' : ''}.`;
}
