import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse, stringify } from 'yaml';
import { readSheet } from '../../src/bike/form/read.ts';
import type { BikeSheet } from '../../src/bike/sheet.ts';
import { writeSheet } from '../../src/bike/form/write.ts';
import { anySheet } from './any-sheet.ts';
import { EXAMPLES, exampleData, exampleSheet } from './example.ts';

/** Half of the last digit written, in SI, by what a field holds; the coarsest unit of each. */
const HALF: readonly [RegExp, number][] = [
  [/pressure|tyre/i, 690], // 0.05 psi = 345 Pa; 0.5 kPa = 500 Pa; 0.005 bar = 500 Pa
  [/mass/i, 0.051],
  [/rate$/, 90], // 0.5 lb/in = 88 N/m
  [/travel$|stroke|wheelbase|preload|spacersUnderStem/, 1.3e-5], // 0.0005 in
  [/sag|travelUsed/i, 0.00051],
];

/** Every place where two sheets differ by more than their printed digits. */
function differences(a: unknown, b: unknown, path = ''): string[] {
  if (typeof a === 'number' && typeof b === 'number') {
    const half = HALF.find(([field]) => field.test(path))?.[1] ?? 0;
    return Math.abs(a - b) <= half ? [] : [`${path}: ${a} and ${b}`];
  }
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null)
    return Object.is(a, b) ? [] : [`${path}: ${String(a)} and ${String(b)}`];
  const keys = new Set([...Object.keys(a), ...Object.keys(b)]);
  return [...keys].flatMap((key) =>
    differences((a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key], `${path}.${key}`),
  );
}

const readBack = (sheet: BikeSheet): BikeSheet => {
  const { sheet: read, problems } = readSheet(writeSheet(sheet));
  if (read === undefined) throw new Error(JSON.stringify(problems));
  return read;
};

describe('writing a sheet', () => {
  it('gives the form a person writes', () => {
    const { units, ...data } = exampleData('few-knobs');
    expect(writeSheet(exampleSheet('few-knobs'))).toEqual({ units, ...data });
  });

  it('writes a quantity that had its own unit in the unit of the sheet', () => {
    expect(writeSheet(exampleSheet('all-knobs'))).toMatchObject({
      rear: { spring: { min: 100, max: 300.2 }, tyre: { now: 26.1, wanted: 26 } },
    });
  });

  it.each(EXAMPLES)('%s survives a trip through YAML text', (name) => {
    const sheet = exampleSheet(name);
    const again = readSheet(parse(stringify(writeSheet(sheet)), { schema: 'core' }));
    expect(again.problems).toEqual([]);
    expect(differences(sheet, again.sheet)).toEqual([]);
  });

  it('reads back the same within the printed digits', () => {
    fc.assert(
      fc.property(anySheet, (sheet) => {
        expect(differences(sheet, readBack(sheet))).toEqual([]);
      }),
    );
  });

  it('writes the same file again after reading it', () => {
    fc.assert(
      fc.property(anySheet, (sheet) => {
        expect(writeSheet(readBack(sheet))).toEqual(writeSheet(sheet));
      }),
    );
  });
});
