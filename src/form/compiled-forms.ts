/** The file forms that a start reads, as JSON Schema: the build puts what it makes of the zod schemas in place of this. */
import type { JsonForm } from './quick.ts';

export const compiledForms: Readonly<Record<string, JsonForm>> = {};
