/** What a schema says to write where something is missing or wrong: beside the form, not in the reader. */
import * as z from 'zod';

const remedies = z.registry<{ readonly remedy: string }>();

/** @param remedy a sentence that says what to write there */
export function taught<T extends z.ZodType>(schema: T, remedy: string): T {
  const own = schema.clone();
  remedies.add(own, { remedy });
  return own;
}

const otherKeys = z.registry<{ readonly from: string }>();

/** @param from a sentence on where keys come from that the form of this map does not know by itself */
export function othersFrom<T extends z.ZodType>(schema: T, from: string): T {
  otherKeys.add(schema, { from });
  return schema;
}

/** Where other keys of a map come from. */
export function otherKeysOf(schema: z.ZodType | undefined): string | undefined {
  const inner = peel(schema);
  return inner === undefined ? undefined : otherKeys.get(inner)?.from;
}

/** The schema of what may be left out, or be there with nothing behind it; its description stays on top. */
export function maybe<T extends z.ZodType>(schema: T): z.ZodOptional<z.ZodNullable<T>> {
  const meta = schema.meta();
  return meta === undefined ? schema.nullish() : schema.nullish().meta(meta);
}

/** @returns of a union, what the first branch says that says anything */
export function remedyOf(schema: z.ZodType | undefined): string | undefined {
  let here = schema;
  for (let next = schema; next !== undefined; next = inside(next)) {
    const found = remedies.get(next)?.remedy;
    if (found !== undefined) return found;
    here = next;
  }
  if (!(here instanceof z.ZodUnion)) return undefined;
  return here.options.map((one) => remedyOf(one as z.ZodType)).find((one) => one !== undefined);
}

/** A schema without what only says that it may be left out. */
export function peel(schema: z.ZodType | undefined): z.ZodType | undefined {
  for (let here = schema; here !== undefined; here = inside(here))
    if (inside(here) === undefined) return here;
  return undefined;
}

function inside(schema: z.ZodType): z.ZodType | undefined {
  return schema instanceof z.ZodOptional || schema instanceof z.ZodNullable || schema instanceof z.ZodDefault
    ? (schema.unwrap() as z.ZodType)
    : undefined;
}
