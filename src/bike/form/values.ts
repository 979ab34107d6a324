/** The values that stand in a bike sheet, as zod schemas. */
import * as z from 'zod';
import { taught } from '../../form/teach.ts';
import type { Range } from './limits.ts';
import { readQuantity, readShare, unitsOf, unitSpellings, type Dimension } from '../units.ts';

/** Anything that prints on some lines; a number is good for a text too. */
export const text = (longest: number) =>
  z.union([
    z.number(),
    z
      .string()
      .max(longest)
      .regex(/^(?=[\s\S]*\S)[\P{Cc}\n\t]*$/u, {
        error: ({ input }) =>
          String(input).trim() === '' ? 'there is nothing in it' : 'it holds control characters',
      }),
  ]);

export const number = ([least, most]: Range) =>
  taught(z.number().min(least).max(most), `Write a number from ${least} to ${most}.`);
export const whole = ([least, most]: Range) =>
  taught(z.int().min(least).max(most), `Write a whole number from ${least} to ${most}.`);

const AMOUNT = String.raw`^\s*[+\-]?(\d+([.,]\d*)?|[.,]\d+)\s*`;

/** A number in the sheet's unit, or a text with its own. */
export function quantity(dimension: Dimension, description: string) {
  const [first] = unitsOf(dimension);
  const units = unitSpellings(dimension).map(anyCase).join('|');
  const why = ({ input }: { readonly input?: unknown }): string => {
    const read = readQuantity(input, dimension, first!);
    return read.ok ? 'no amount' : read.why;
  };
  const form = z.union([
    z.number(),
    z.string().regex(new RegExp(String.raw`${AMOUNT}(${units})?\s*$`, 'u'), { error: why }),
  ]);
  return taught(
    form.meta({ description: `${description}; a plain number is in the sheet's unit, or e.g. 5 ${first}` }),
    `Write a number, or one with its unit: 5 ${first}.`,
  );
}

/** JSON Schema's patterns know no flag for "case does not matter". */
function anyCase(word: string): string {
  return word.replaceAll(/[a-z]/gi, (c) => `[${c.toLowerCase()}${c.toUpperCase()}]`);
}

export function share(most: number, description: string) {
  const why = ({ input }: { readonly input?: unknown }): string => {
    const read = readShare(input);
    return read.ok ? 'no share' : read.why;
  };
  const form = z.union([
    z.number().max(most),
    z.string().regex(new RegExp(String.raw`${AMOUNT}%\s*$`, 'u'), { error: why }),
  ]);
  return taught(
    form.meta({ description: `${description}, such as 28%` }),
    "Write it as a share of the travel (at the rear, of the shock's stroke), like 28%.",
  );
}
