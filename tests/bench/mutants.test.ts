/** The lists of faults that the tests must notice follow the sources: a text that is not there, or twice, breaks nothing. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';

interface Fault {
  readonly file: string;
  readonly find?: string;
  readonly put?: string;
}
const read = (path: string): string => readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8');

it.each(['tests/bench/mutants.json', 'tests/mutants/mutants.json'])(
  'each text to break stands just once: %s',
  (list) => {
    const faults = JSON.parse(read(list)) as Fault[];
    expect(faults.length).toBeGreaterThan(0);
    const lost = faults.filter(({ file, find, put }) => read(file).split((find ?? put)!).length !== 2);
    expect(lost).toEqual([]);
  },
);
