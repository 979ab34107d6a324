/** What the advice on a case hangs on is kept by the content of the case, and is then what trying every strength gives. */
import { existsSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Case } from '../../src/casework/case.ts';
import { caseSensitivity, type CaseSensitivity } from '../../src/evaluation/sensitivity.ts';
import { sensitivityKeeper } from '../../src/workspace/cases/kept-by-content.ts';
import { keptHome, withFinding } from '../support/kept-home.ts';
import { bench, model, toldOf } from '../support/told.ts';

const home = keptHome();
/** What a start is told of a case, and whether it had to make it: making is dear, so each test says what is made. */
const told = (kase: Case, made: CaseSensitivity | undefined, on = bench): Promise<CaseSensitivity> =>
  home.start((io) =>
    sensitivityKeeper(io)([model, on, kase], () => {
      if (made === undefined) throw new Error('it was made again');
      return made;
    }),
  );
const files = (): number => home.files('tipping').length;

describe('what the advice hangs on', () => {
  it('is the same the second time, from one file, and another case has one of its own', async () => {
    const made = caseSensitivity(model, bench, toldOf('more'));
    expect(made.tried).toBeGreaterThan(50);
    expect(made.tipping).not.toEqual([]);
    expect(await told(toldOf('more'), made)).toEqual(made);
    expect(await told(toldOf('more'), undefined)).toEqual(JSON.parse(JSON.stringify(made)));
    expect(files()).toBe(1);
    const other = { tried: 3, tipping: [] };
    expect(await told(toldOf('target'), other)).toEqual(other);
    expect(await told(toldOf('target'), undefined)).toEqual(other);
    expect(files()).toBe(2);
  });
  it('is worked out anew on a bike that speaks otherwise for the causes, or whose sheet does', async () => {
    const odds = bench.odds.slice();
    odds[1]! *= 2;
    const benches = [bench, { ...bench, odds }, withFinding];
    for (const [tried, on] of benches.entries())
      expect(await told(toldOf('target'), { tried, tipping: [] }, on)).toEqual({ tried, tipping: [] });
    expect(files()).toBe(3);
    for (const [tried, on] of benches.entries())
      expect(await told(toldOf('target'), undefined, on)).toEqual({ tried, tipping: [] });
  });
  it('is written when all is told, of the first few cases of a start only', async () => {
    await home.start(async (io) => {
      const keep = sensitivityKeeper(io);
      for (let i = 0; i < 7; i++) {
        const one = { ...toldOf('more'), id: `case ${i}` };
        await keep([model, bench, one], () => ({ tried: i, tipping: [] }));
      }
      expect(existsSync(home.folder('tipping'))).toBe(false);
    });
    expect(files()).toBe(5);
  });
});
