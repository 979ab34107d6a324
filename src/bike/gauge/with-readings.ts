/** A sheet with what was read today in the place of what stood there. */
import { dialOf } from '../settings.ts';
import type { BikeSheet, End, EndSheet } from '../sheet.ts';
import type { Of } from '../dial/dial.ts';
import { siPer } from '../units.ts';
import type { Band, Reads } from './gauge.ts';

export interface Reading {
  readonly end: End;
  readonly reads: Reads;
  /** as `Reads` has it */
  readonly value: number;
  /** what it was held against */
  readonly band: Band;
}

/**
 * Sag, and the pressure of a spring, get the middle of what they were held against for a target where the sheet has none; a
 * tyre does not: what is usual for a weight is too wide to be gone to at once. What was read with another pressure in the
 * spring is taken off, as where it is pumped.
 */
export function withReadings(sheet: BikeSheet, readings: readonly Reading[]): BikeSheet {
  // Today's sag was read with today's pressure.
  const springFirst = [...readings].sort(
    (a, b) => Number(b.reads === 'spring') - Number(a.reads === 'spring'),
  );
  return springFirst.reduce((before, reading): BikeSheet => {
    const { ends } = reading.reads === 'spring' ? pumped(before, reading) : before;
    return { ...before, ends: { ...ends, [reading.end]: withReading(ends[reading.end], reading) } };
  }, sheet);
}

/** The sheet with its spring at another pressure than it says; the same where it says that, or none. */
function pumped(sheet: BikeSheet, { end, value }: Reading): BikeSheet {
  const { pressure: unit } = sheet.units;
  const dial = dialOf(sheet, { setting: `${end}.spring`, unit });
  if ('message' in dial || dial.now === undefined) return sheet;
  const to = value / siPer(unit);
  // Nearer than a gauge shows is the same.
  return Math.abs(to - dial.now) <= dial.grain ? sheet : dial.turned(to);
}

/** Whether a number that was read before a setting was turned is still true after it. */
export function outlives(sheet: BikeSheet, reading: Reading, of: Of): boolean {
  const before = withReadings(sheet, [reading]);
  const dial = dialOf(before, of);
  if ('message' in dial) return true;
  const after = dial.turned((dial.now ?? dial.min) + dial.grain);
  const { end, reads } = reading;
  return valueOf(after.ends[end], reads) === valueOf(before.ends[end], reads);
}

function valueOf({ sagMeasured, tyre, spring }: EndSheet, reads: Reads): number | undefined {
  if (reads === 'sag') return sagMeasured;
  if (reads === 'tyre') return tyre?.now;
  return spring.kind === 'air' ? spring.pressure : undefined;
}

function withReading(part: EndSheet, { reads, value, band }: Reading): EndSheet {
  const middle = (band[0] + band[1]) / 2;
  switch (reads) {
    case 'sag': {
      // How an older reading was taken says nothing of this one.
      const { sagBasis: _, ...rest } = part;
      return { ...rest, sagMeasured: value, sagWanted: part.sagWanted ?? middle };
    }
    case 'tyre':
      return { ...part, tyre: { ...part.tyre, now: value } };
    case 'spring':
      return part.spring.kind === 'coil'
        ? part
        : {
            ...part,
            spring: { ...part.spring, pressure: value, pressureMaker: part.spring.pressureMaker ?? middle },
          };
  }
}
