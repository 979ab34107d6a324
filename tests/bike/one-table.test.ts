/** The settings table is the only list of settings: nothing else in the program may name one. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { CIRCUITS } from '../../src/bike/circuits.ts';
import { rowsOf } from '../../src/bike/settings.ts';

const SRC = new URL('../../src/', import.meta.url).pathname;
/** The table itself; what each row is in the physical model; examples of notation that a help page prints. */
const ALLOWED = ['bike/circuits.ts', 'bike/built-in-rows.ts', 'physics/'];
/** The circuits by their path, and every setting by its whole id. */
const names = [
  ...new Set([...CIRCUITS, ...rowsOf().flatMap(({ setting, stand }) => [setting, stand])]),
].filter((name) => name.includes('.'));

describe('the settings table', () => {
  it('is named nowhere else in the program', () => {
    const files = readdirSync(SRC, { recursive: true, encoding: 'utf8' }).filter((f) => f.endsWith('.ts'));
    const found = files
      .filter((file) => !ALLOWED.some((allowed) => file.startsWith(allowed)))
      .flatMap((file) => {
        const code = readFileSync(join(SRC, file), 'utf8')
          .replaceAll(/\/\*[\s\S]*?\*\//g, '')
          .replaceAll(/\/\/.*$/gm, '');
        return names.filter((name) => code.includes(`'${name}'`)).map((name) => `${file}: ${name}`);
      });
    expect(found).toEqual([]);
  });
  it('has the names that this test looks for', () => {
    expect(names).toEqual(
      expect.arrayContaining(['rebound.low', 'compression.high', 'front.ramp-up', 'rear.sag.measured']),
    );
  });
});
