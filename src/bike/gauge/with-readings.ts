/** A sheet with what was read today in the place of what stood there. */
import type { BikeSheet, End, EndSheet } from '../sheet.ts';
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
 * tyre does not: what is usual for a weight is too wide to be gone to at once.
 */
export function withReadings(sheet: BikeSheet, readings: readonly Reading[]): BikeSheet {
  return readings.reduce(
    (before, reading): BikeSheet => ({
      ...before,
      ends: { ...before.ends, [reading.end]: withReading(before.ends[reading.end], reading) },
    }),
    sheet,
  );
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
