/** A sheet that has its form, read without zod; what is wrong with one that has not, `read.ts` says. */
import { compiledForms } from '../../form/compiled-forms.ts';
import { hasForm, type JsonForm } from '../../form/quick.ts';
import { ownFormOf, type OwnSetting } from '../own-setting.ts';
import type { SheetFile } from './schema.ts';
import { sheetOf, type ReadSheet } from './sheet-of.ts';

/** @returns undefined where the full reader has to look */
export function readQuickly(raw: unknown, own: readonly OwnSetting[]): ReadSheet | undefined {
  const form = compiledForms['bike'];
  if (form === undefined) return undefined;
  const ownForm = ({ unit }: OwnSetting): JsonForm => compiledForms[`own-${ownFormOf(unit)}`]!;
  return hasForm(withOwn(form, own, ownForm), raw) ? sheetOf(raw as SheetFile, own) : undefined;
}

/** A form of a bike with the keys that packs add to it, at its ends and to the whole. */
export function withOwn(
  form: JsonForm,
  own: readonly OwnSetting[],
  ownForm: (one: OwnSetting) => JsonForm,
): JsonForm {
  if (own.length === 0) return form;
  if (form.anyOf !== undefined) return { anyOf: form.anyOf.map((one) => withOwn(one, own, ownForm)) };
  if (form.type !== 'object') return form;
  const properties = { ...form.properties };
  for (const one of own) {
    if (one.end === undefined) properties[one.key] = { anyOf: [ownForm(one), { type: 'null' }] };
    else if (properties[one.end] !== undefined)
      properties[one.end] = withOwn(properties[one.end]!, [{ ...one, end: undefined } as never], ownForm);
  }
  return { ...form, properties };
}
