/** The unit of a sheet on which no number of its kind stands yet: the one that its first number is given in. */
import { writeSheet } from './form/write.ts';
import type { BikeSheet } from './sheet.ts';
import { DEFAULT_UNITS, unitNamed, unitsOf, type Dimension } from './units.ts';

const DIMENSIONS = Object.keys(DEFAULT_UNITS) as Dimension[];

/**
 * @param values as they were typed: `12.5bar` has its own unit, `12.5` has none
 * @returns the sheet in these units, where nothing on it is told in others
 */
export function inFirstUnits(sheet: BikeSheet, values: readonly unknown[]): BikeSheet {
  let now = sheet;
  for (const value of values) {
    const unit = typeof value === 'string' ? /\d\s*([a-z][a-z/]*)$/i.exec(value.trim())?.[1] : undefined;
    const dimension = DIMENSIONS.find((one) => unit !== undefined && unitNamed(unit, one) !== undefined);
    if (dimension === undefined || !isUntold(now, dimension)) continue;
    now = withUnit(now, dimension, unitNamed(unit!, dimension)!);
  }
  return now;
}

/** Whether the sheet would read the same in any unit of this kind, but for its name. */
function isUntold(sheet: BikeSheet, dimension: Dimension): boolean {
  const texts = unitsOf(dimension).map((unit) => {
    const { units: _, ...rest } = writeSheet(withUnit(sheet, dimension, unit));
    return JSON.stringify(rest);
  });
  return new Set(texts).size === 1;
}

function withUnit(sheet: BikeSheet, dimension: Dimension, unit: string): BikeSheet {
  return { ...sheet, units: { ...sheet.units, [dimension]: unit } };
}
