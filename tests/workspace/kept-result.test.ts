/** The result of a case is kept by all it hangs on, is then the same to the byte, and is never believed when it was touched. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import type { Case } from '../../src/casework/case.ts';
import { consult } from '../../src/casework/consult.ts';
import type { Result } from '../../src/report/result/result.ts';
import { toResult } from '../../src/report/result/to-result.ts';
import { resultKeeper } from '../../src/workspace/cases/kept-by-content.ts';
import { keptHome, withFinding } from '../support/kept-home.ts';
import { bench, model, toldOf } from '../support/told.ts';

const home = keptHome();
let made = 0;
const work = (one: Case): Result => {
  made++;
  return toResult(model, one, consult(model, bench, one, { next: true, explain: 5, fit: true }));
};

const told = (one: Case, how: unknown = {}, on = bench): Promise<Result> =>
  home.start((io) => resultKeeper(io)([model, on, one, how], () => work(one)));
const files = (): string[] => home.files('results');

describe('the result of a case', () => {
  beforeEach(() => (made = 0));
  it('is worked out once, and is the same the second time', async () => {
    const first = await told(toldOf('more'));
    expect(JSON.stringify(await told(toldOf('more')))).toBe(JSON.stringify(first));
    expect(made).toBe(1);
  });
  it('is worked out anew for another answer, another question to it, a bike that speaks otherwise, and a sheet that does', async () => {
    await told(toldOf('more'));
    await told(toldOf('target'));
    await told(toldOf('more'), { full: true });
    const odds = bench.odds.slice();
    odds[1]! *= 2;
    await told(toldOf('more'), {}, { ...bench, odds });
    await told(toldOf('more'), {}, withFinding);
    expect(made).toBe(5);
    expect(files()).toHaveLength(5);
  });
  it('is not believed when somebody wrote into it', async () => {
    const first = await told(toldOf('more'));
    const path = join(home.folder('results'), files()[0]!);
    const text = readFileSync(path, 'utf8');
    expect(text).toContain('"verdict":"');
    writeFileSync(path, text.replace(/"verdict":"[a-z]+"/, '"verdict":"leave"'));
    expect(await told(toldOf('more'))).toEqual(first);
    expect(made).toBe(2);
  });
  it('is kept of the first few cases of a start only', async () => {
    await home.start(async (io) => {
      const keep = resultKeeper(io);
      for (let i = 0; i < 8; i++) {
        const one = { ...toldOf('more'), id: `case ${i}` };
        await keep([model, bench, one, {}], () => work(one));
      }
    });
    expect(made).toBe(8);
    expect(files()).toHaveLength(5);
  });
});
