/** What the advice on a case hangs on is kept by the content of the case, and is then what trying every strength gives. */
import { existsSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Case } from '../../src/casework/case.ts';
import { caseSensitivity, type CaseSensitivity } from '../../src/evaluation/sensitivity.ts';
import { sensitivityKeeper } from '../../src/workspace/cases/kept-sensitivity.ts';
import { keptHome, withFinding } from '../support/kept-home.ts';
import { bench, model, toldOf } from '../support/told.ts';

const home = keptHome();
const told = (kase: Case, on = bench): Promise<CaseSensitivity> =>
  home.start((io) => sensitivityKeeper(io)([model, on, kase], () => caseSensitivity(model, on, kase)));
const files = (): number => home.files('tipping').length;

describe('what the advice hangs on', () => {
  it('is the same the second time, from one file, and another case has one of its own', async () => {
    const wanted = JSON.parse(JSON.stringify(caseSensitivity(model, bench, toldOf('more'))));
    expect(wanted.tried).toBeGreaterThan(50);
    const first = await told(toldOf('more'));
    expect(JSON.parse(JSON.stringify(first))).toEqual(wanted);
    expect(await told(toldOf('more'))).toEqual(wanted);
    expect(files()).toBe(1);
    const other = await told(toldOf('target'));
    expect(other).toEqual(caseSensitivity(model, bench, toldOf('target')));
    expect(files()).toBe(2);
  });
  it('is worked out anew on a bike that speaks otherwise for the causes, or whose sheet does', async () => {
    await told(toldOf('target'));
    const prior = bench.prior.slice();
    prior[1]! *= 2;
    await told(toldOf('target'), { ...bench, prior });
    await told(toldOf('target'), withFinding);
    expect(files()).toBe(3);
  });
  it('is written when all is told, of the first few cases of a start only', async () => {
    await home.start(async (io) => {
      const keep = sensitivityKeeper(io);
      for (let i = 0; i < 7; i++) {
        const one = { ...toldOf('more'), id: `case ${i}` };
        await keep([model, bench, one], () => caseSensitivity(model, bench, one));
      }
      expect(existsSync(home.folder('tipping'))).toBe(false);
    });
    expect(files()).toBe(5);
  });
});
