/** The example sheets as data, and as sheets. */
import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { readSheet } from '../../src/bike/form/read.ts';
import type { BikeSheet } from '../../src/bike/sheet.ts';

export const EXAMPLES = ['few-knobs', 'all-knobs', 'coil'] as const;

export function exampleData(name: (typeof EXAMPLES)[number]): Record<string, unknown> {
  const file = new URL(`../../examples/bikes/${name}.yaml`, import.meta.url);
  return parse(readFileSync(file, 'utf8'), { schema: 'core' });
}

export function exampleSheet(name: (typeof EXAMPLES)[number]): BikeSheet {
  return readSheet(exampleData(name)).sheet!;
}

/** The all-knobs bike with one value put at a path; undefined takes the key away. */
export function withValue(path: string, value: unknown): unknown {
  const data = exampleData('all-knobs');
  const keys = path.split('.');
  const last = keys.pop()!;
  const map = keys.reduce((m, key) => (m[key] ??= {}) as Record<string, unknown>, data);
  if (value === undefined) delete map[last];
  else map[last] = value;
  return data;
}

/** Every problem of a sheet, a line each. */
export const told = (raw: unknown): string[] =>
  readSheet(raw).problems.map((p) => `${p.path.join('.')} ${p.severity}: ${p.message} ${p.remedy}`);
