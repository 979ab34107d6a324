/** What the advice on a case hangs on is kept by the content of the case, and is then what trying every strength gives. */
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import type { Case } from '../../src/casework/case.ts';
import { buildModel } from '../../src/diagnosis/model.ts';
import { caseSensitivity } from '../../src/evaluation/sensitivity.ts';
import type { Io } from '../../src/host/io.ts';
import { keptSensitivity } from '../../src/workspace/cases/kept-sensitivity.ts';
import { baseRules } from '../support/base-rules.ts';

let home: string;
beforeEach(() => (home = mkdtempSync(join(tmpdir(), 'kept-'))));
afterEach(() => rmSync(home, { recursive: true, force: true }));

const { rules } = baseRules();
const model = buildModel(rules);
const bench = prepareBike(model);
const kase = (sag: string): Case => ({
  id: 'x',
  answers: [
    { question: 'complaint', answer: 'rows', sure: 'sure' },
    { question: 'sag@front', answer: sag, sure: 'sure' },
  ],
  results: [],
  earlier: [],
});
const io = (): Io => ({ env: { EARSHOT_HOME: home }, cwd: home }) as unknown as Io;
const files = (): number =>
  readdirSync(join(home, 'earshot', 'tipping')).filter((name) => name.endsWith('.json')).length;

describe('what the advice hangs on', () => {
  it('is the same the second time, from one file, and another case has one of its own', async () => {
    const wanted = JSON.parse(JSON.stringify(caseSensitivity(model, bench, kase('more'))));
    expect(wanted.tried).toBeGreaterThan(50);
    const first = await keptSensitivity(io(), model, bench, kase('more'));
    expect(JSON.parse(JSON.stringify(first))).toEqual(wanted);
    expect(await keptSensitivity(io(), model, bench, kase('more'))).toEqual(wanted);
    expect(files()).toBe(1);
    const other = await keptSensitivity(io(), model, bench, kase('target'));
    expect(other).toEqual(caseSensitivity(model, bench, kase('target')));
    expect(files()).toBe(2);
  });
  it('is worked out anew on a bike that speaks otherwise for the causes', async () => {
    await keptSensitivity(io(), model, bench, kase('target'));
    const prior = bench.prior.slice();
    prior[1]! *= 2;
    await keptSensitivity(io(), model, { ...bench, prior }, kase('target'));
    expect(files()).toBe(2);
  });
});
