/** JSON Schemas of every file form, made from the zod schemas that check them. */
import * as z from 'zod';
import type { OwnSetting } from '../../bike/own-setting.ts';
import { sheetSchemaWith } from '../../bike/form/schema.ts';
import { packFile } from '../../rulebase/schema/pack.ts';
import { ruleFile } from '../../rulebase/schema/rule-file.ts';
import { caseSchemaWith } from '../../casework/reading/case-schema.ts';
import { resultSchema } from './result-schema.ts';

const FORMS = {
  rules: () => ruleFile,
  pack: () => packFile,
  case: caseSchemaWith,
  result: () => resultSchema,
  bike: sheetSchemaWith,
} as const satisfies Record<string, (own: readonly OwnSetting[]) => z.ZodType>;
export const SCHEMAS = Object.keys(FORMS) as (keyof typeof FORMS)[];

/** @param own the settings that the packs in use add to a bike sheet */
export function schemaOf(what: keyof typeof FORMS, own: readonly OwnSetting[] = []): unknown {
  return z.toJSONSchema(FORMS[what](own), { io: 'input', unrepresentable: 'any' });
}
