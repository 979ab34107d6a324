/** JSON Schemas of every file form, made from the zod schemas that check them. */
import * as z from 'zod';
import { sheetSchema } from '../bike/schema.ts';
import { packFile, ruleFile } from '../rulebase/schema.ts';
import { caseSchema, resultSchema } from './result-schema.ts';

const FORMS = {
  rules: ruleFile,
  pack: packFile,
  case: caseSchema,
  result: resultSchema,
  bike: sheetSchema,
} as const;
export const SCHEMAS = Object.keys(FORMS) as (keyof typeof FORMS)[];

export function schemaOf(what: keyof typeof FORMS): unknown {
  return z.toJSONSchema(FORMS[what], { io: 'input', unrepresentable: 'any' });
}
