/** The result of a case is kept by all it hangs on, is then the same to the byte, and is never believed when it was touched. */
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import type { Case } from '../../src/casework/case.ts';
import { consult } from '../../src/casework/consult.ts';
import { buildModel } from '../../src/diagnosis/model.ts';
import type { Io } from '../../src/host/io.ts';
import { toResult, type Result } from '../../src/report/result.ts';
import { resultKeeper } from '../../src/workspace/cases/kept-result.ts';
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
let made = 0;
const work = (one: Case): Result => {
  made++;
  return toResult(model, bench, one, consult(model, bench, one, { next: true, explain: 5, fit: true }));
};

/** One start of the program, with what waits for its end. */
async function start<T>(run: (keep: ReturnType<typeof resultKeeper>) => Promise<T>): Promise<T> {
  const waiting: (() => Promise<void>)[] = [];
  const io = {
    env: { EARSHOT_HOME: home },
    cwd: home,
    afterwards: (later: () => Promise<void>) => void waiting.push(later),
  } as unknown as Io;
  const got = await run(resultKeeper(io));
  for (const later of waiting) await later();
  return got;
}
const told = (one: Case, how: unknown = {}, on = bench): Promise<Result> =>
  start((keep) => keep(model, on, one, how, async () => work(one)));
const folder = (): string => join(home, 'earshot', 'results');
const files = (): string[] => readdirSync(folder()).filter((name) => name.endsWith('.json'));

describe('the result of a case', () => {
  beforeEach(() => (made = 0));
  it('is worked out once, and is the same the second time', async () => {
    const first = await told(kase('more'));
    expect(JSON.stringify(await told(kase('more')))).toBe(JSON.stringify(first));
    expect(made).toBe(1);
  });
  it('is worked out anew for another answer, another question to it, and a bike that speaks otherwise', async () => {
    await told(kase('more'));
    await told(kase('target'));
    await told(kase('more'), { full: true });
    const prior = bench.prior.slice();
    prior[1]! *= 2;
    await told(kase('more'), {}, { ...bench, prior });
    expect(made).toBe(4);
    expect(files()).toHaveLength(4);
  });
  it('is not believed when somebody wrote into it', async () => {
    const first = await told(kase('more'));
    const path = join(folder(), files()[0]!);
    const text = readFileSync(path, 'utf8');
    expect(text).toContain('"verdict":"');
    writeFileSync(path, text.replace(/"verdict":"[a-z]+"/, '"verdict":"leave"'));
    expect(await told(kase('more'))).toEqual(first);
    expect(made).toBe(2);
  });
  it('is kept of the first few cases of a start only', async () => {
    await start(async (keep) => {
      for (let i = 0; i < 8; i++) {
        const one = { ...kase('more'), id: `case ${i}` };
        await keep(model, bench, one, {}, async () => work(one));
      }
    });
    expect(made).toBe(8);
    expect(files()).toHaveLength(5);
  });
});
