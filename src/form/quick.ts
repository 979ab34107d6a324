/**
 * Whether plain data has a form, told by its JSON Schema: what a start and a stream of files need of a form that is
 * nearly always kept. What is wrong with data that has not, zod says (`checked.ts`), whose loading costs as much as a case.
 */
import { isMap } from './plain-data.ts';

/** The part of JSON Schema that `z.toJSONSchema` writes of the file forms. */
export interface JsonForm {
  readonly type?: string | readonly string[];
  readonly const?: unknown;
  readonly enum?: readonly unknown[];
  readonly anyOf?: readonly JsonForm[];
  readonly oneOf?: readonly JsonForm[];
  readonly properties?: Readonly<Record<string, JsonForm>>;
  readonly required?: readonly string[];
  readonly additionalProperties?: boolean | JsonForm;
  readonly items?: JsonForm;
  readonly prefixItems?: readonly JsonForm[];
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly exclusiveMinimum?: number;
  readonly minLength?: number;
  readonly maxLength?: number;
  readonly pattern?: string;
}

export function hasForm(form: JsonForm, data: unknown): boolean {
  const branches = form.anyOf ?? form.oneOf;
  if (branches !== undefined) return branches.some((branch) => hasForm(branch, data));
  if ('const' in form) return data === form.const;
  if (form.enum !== undefined) return form.enum.includes(data);
  const { type } = form;
  if (type === undefined) return true;
  return typeof type === 'string' ? isType(type, form, data) : type.some((one) => isType(one, form, data));
}

function isType(type: string, form: JsonForm, data: unknown): boolean {
  switch (type) {
    case 'null':
      return data === null;
    case 'boolean':
      return typeof data === 'boolean';
    case 'string':
      return typeof data === 'string' && isText(form, data);
    case 'number':
      return Number.isFinite(data) && isWithin(form, data as number);
    case 'integer':
      return Number.isSafeInteger(data) && isWithin(form, data as number);
    case 'array':
      return Array.isArray(data) && isList(form, data);
    case 'object':
      return isMap(data) && isMapOf(form, data);
    default:
      return false;
  }
}

const patterns = new Map<string, RegExp>();

function isText({ minLength = 0, maxLength = Infinity, pattern }: JsonForm, data: string): boolean {
  if (data.length < minLength || data.length > maxLength) return false;
  if (pattern === undefined) return true;
  let found = patterns.get(pattern);
  if (found === undefined) patterns.set(pattern, (found = new RegExp(pattern, 'u')));
  return found.test(data);
}

function isWithin(form: JsonForm, data: number): boolean {
  const { minimum = -Infinity, maximum = Infinity, exclusiveMinimum = -Infinity } = form;
  return data >= minimum && data <= maximum && data > exclusiveMinimum;
}

function isList(form: JsonForm, data: readonly unknown[]): boolean {
  const { prefixItems = [], items, minItems = 0, maxItems = Infinity } = form;
  if (data.length < Math.max(minItems, prefixItems.length) || data.length > maxItems) return false;
  if (items === undefined && form.prefixItems !== undefined && data.length > prefixItems.length) return false;
  return data.every((one, i) => hasForm(prefixItems[i] ?? items ?? {}, one));
}

function isMapOf(form: JsonForm, data: Readonly<Record<string, unknown>>): boolean {
  const { properties = {}, required = [], additionalProperties: others = true } = form;
  for (const key of required) if (!Object.hasOwn(data, key)) return false;
  for (const key of Object.keys(data)) {
    const value = data[key];
    if (Object.hasOwn(properties, key)) {
      // A key that is there with nothing behind it is as good as left out.
      if (value === undefined && !required.includes(key)) continue;
      if (!hasForm(properties[key]!, value)) return false;
    } else if (others === false || (others !== true && !hasForm(others, value))) return false;
  }
  return true;
}
