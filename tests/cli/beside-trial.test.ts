/** What is written down by hand: a large step is told, and an open trial is not spoiled unseen. */
import { copyFileSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { earshot as run, shareKept, type Ran } from '../support/io.ts';

const shelf = mkdtempSync(join(tmpdir(), 'earshot-beside-trial-'));
afterAll(() => rmSync(shelf, { recursive: true, force: true }));
let cwd = '';
beforeEach(() => {
  cwd = mkdtempSync(join(shelf, 'case-'));
  shareKept(join(cwd, 'home'));
  copyFileSync(new URL('../../examples/bikes/all-knobs.yaml', import.meta.url), join(cwd, 'b.yaml'));
});

const earshot = (...argv: string[]): Promise<Ran> =>
  run([...argv, '--bike', 'b.yaml'], { cwd, env: { EARSHOT_HOME: join(cwd, 'home') } });
const sheet = (): string => readFileSync(join(cwd, 'b.yaml'), 'utf8');

describe('a large step', () => {
  // A quarter of its clicks, and a fifth of the pressure: common practice, no source.
  it.each([
    ['front.compression.low-5', '5 clicks in one go is a lot for the front low-speed compression: 4 clicks'],
    ['front.spring+17psi', '17 psi in one go is a lot for the front spring: 16.8 psi'],
    ['rear.rebound.high-3', '3 clicks in one go is a lot for the rear high-speed rebound: 2 clicks'],
  ])('is written down, and told: %s', async (change, told) => {
    const ran = await earshot('log', 'change', change);
    expect(ran.code).toBe(0);
    expect(ran.err).toContain(told);
    expect(ran.err).toContain('Not meant? earshot log undo --bike b.yaml\n');
  });

  it.each(['front.compression.low-4', 'front.spring+16psi', 'rear.rebound.high-2', 'front.tyre+8psi'])(
    'is not what the trade takes at once, or a gauge bounds: %s',
    async (change) => {
      expect(await earshot('log', 'change', change)).toMatchObject({ code: 0, err: '' });
    },
  );

  it('is judged by four clicks where nobody counted them', async () => {
    await earshot('bike', 'set', 'front.compression.low.clicks=none');
    const [within, beyond] = [
      await earshot('log', 'change', 'front.compression.low-4'),
      await earshot('log', 'change', 'front.compression.low+5'),
    ];
    expect(within.err).toBe('');
    expect(beyond.err).toContain('5 clicks in one go');
  });
});

describe('beside an open trial', () => {
  beforeEach(async () => {
    await earshot('trial', 'plan', '--change', 'front.rebound.low+2');
  });

  it('refuses to take its knob away from the reference, with both ways on, and writes nothing', async () => {
    const before = sheet();
    const ran = await earshot('log', 'change', 'front.rebound.low+1');
    expect(ran).toMatchObject({
      code: 1,
      out: '',
      err: `Trial front-rebound-low-1 is open and tests the front low-speed rebound against 8 clicks from closed: set it by hand for each run, and record the run. Nothing was written. Carry on: earshot trial record --bike b.yaml
Or end the trial first: earshot trial judge --bike b.yaml --trial front-rebound-low-1 --close
`,
    });
    expect(sheet()).toBe(before);
  });

  it('tells that a count does not fit it, and takes the knob back to the reference without a word', async () => {
    const counted = await earshot('bike', 'set', 'front.rebound.low=7');
    expect(counted.err).toContain('at 8 clicks from closed, and the sheet says 7 now.');
    expect(await earshot('log', 'change', 'front.rebound.low+1')).toMatchObject({ code: 0, err: '' });
    // And not away from it again.
    expect((await earshot('log', 'undo')).code).toBe(1);
  });

  it('tells of another change only once runs would no longer compare', async () => {
    expect((await earshot('log', 'change', 'rear.rebound.low+1')).err).toBe('');
    await earshot('trial', 'record', '--rating', 'grip=4');
    const ran = await earshot('log', 'change', 'rear.rebound.low+1');
    expect(ran.code).toBe(0);
    expect(ran.err).toContain('runs before this change and after it do not compare. Take it back:');
  });
});
