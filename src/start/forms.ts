/** The file forms that a start reads, as JSON Schema in place of the empty list that the sources have. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import * as z from 'zod';
import { OWN_FORMS } from '../bike/form/end-schema.ts';
import { sheetSchema } from '../bike/form/schema.ts';
import { caseSchema } from '../casework/reading/case-schema.ts';
import type { JsonForm } from '../form/quick.ts';
import { ROOT } from '../host/root.ts';

export const FORMS = {
  case: caseSchema,
  bike: sheetSchema,
  ...(Object.fromEntries(Object.entries(OWN_FORMS).map(([name, form]) => [`own-${name}`, form])) as Record<
    string,
    z.ZodType
  >),
};

/** What the program needs of them: not what they tell an editor. */
export function plainForms(): Readonly<Record<string, JsonForm>> {
  const forms = Object.fromEntries(
    Object.entries(FORMS).map(([name, form]) => [name, z.toJSONSchema(form as z.ZodType, { io: 'input' })]),
  );
  return JSON.parse(
    JSON.stringify(forms, (key, value: unknown) =>
      // What the form of a time is, its pattern says.
      key === 'description' || key === '$schema' || key === 'title' || value === 'date-time'
        ? undefined
        : value,
    ),
  ) as Readonly<Record<string, JsonForm>>;
}

export function writeForms(): void {
  const file = join(ROOT, 'dist', 'form', 'compiled-forms.js');
  writeFileSync(file, `export const compiledForms = ${JSON.stringify(plainForms())};\n`);
}
