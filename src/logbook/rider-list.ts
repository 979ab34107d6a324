/** What the rider went to find out. */
import { join } from 'node:path';
import * as z from 'zod';
import { readIfThere, PRIVATE, replaceFile } from '../disk/atomic-file.ts';
import { brokenFile } from '../disk/errors.ts';
import { readForm, writeYaml } from '../disk/yaml-file.ts';

export interface ListItem {
  /** the question or adjustment behind it */
  readonly id: string;
  readonly what: string;
  /** ISO 8601 */
  readonly since: string;
  readonly done?: string;
  readonly case?: string;
}

const text = z.string().min(1);
const form = z.strictObject({
  list: z.array(
    z.strictObject({ id: text, what: text, since: text, done: text.optional(), case: text.optional() }),
  ),
});
const FILE = 'rider-list.yaml';

/** @throws LogError when the file is broken */
export async function readRiderList(folder: string): Promise<ListItem[]> {
  const file = join(folder, FILE);
  const bytes = await readIfThere(file);
  if (bytes === undefined) return [];
  const read = readForm(bytes.toString('utf8'), file, form);
  if (read.value === undefined) throw brokenFile(read.problems);
  return read.value.list as ListItem[];
}

export async function writeRiderList(folder: string, list: readonly ListItem[]): Promise<void> {
  await replaceFile(join(folder, FILE), writeYaml({ list }), PRIVATE);
}
