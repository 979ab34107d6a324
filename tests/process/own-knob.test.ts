/** A mechanic's own knob: everything a knob of the built-in table can do, brought by a rule pack alone. */
import { cpSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';
import { describe, expect, it } from 'vitest';
import { openLog } from '../../src/logbook/log.ts';
import { nextArm, runsLeft } from '../../src/trials/sequence.ts';
import { readTrial } from '../../src/trials/trial-file.ts';
import type { ArmName } from '../../src/trials/trial.ts';
import { workshop, type Workshop } from '../story/place.ts';

const PACKS = new URL('../../examples/packs/', import.meta.url).pathname;
const PACK = ['--rules', join(PACKS, 'bottom-out')];
const BIKE = ['--bike', 'bike.yaml'];

/** A folder with the pack's bike in it, and every line run with the pack. */
function shed(): Workshop {
  const shop = workshop();
  cpSync(join(PACKS, 'bottom-out.bike.yaml'), join(shop.folder, 'bike.yaml'));
  cpSync(join(PACKS, 'bottom-out.case.yaml'), join(shop.folder, 'case.yaml'));
  return {
    ...shop,
    run: (...argv) => shop.run(...PACK, ...argv),
    out: (...argv) => shop.out(...PACK, ...argv),
    json: (...argv) => shop.json(...PACK, ...argv),
  };
}
/** The arm of the run that comes next. */
async function upcoming(shop: Workshop): Promise<ArmName | undefined> {
  const log = await openLog(shop.env['EARSHOT_HOME']!, 'ash', { now: () => new Date() });
  const trial = readTrial((await log.loadTrials()).papers[0]!.data);
  return trial.value !== undefined && runsLeft(trial.value) > 0 ? nextArm(trial.value) : undefined;
}
const knob = (shop: Workshop): unknown => parse(shop.sheet()).front['bottom-out'];

describe('a knob that only a pack knows', () => {
  it('stands the check of its rules and of those it is laid over, without a warning', async () => {
    const { code, out } = await shed().run('rules', 'check');
    expect(out).toMatch(/\b(\d+) checks, \1 passed; 0 errors, 0 warnings\./);
    expect(code).toBe(0);
  });
  it('is advised without a bike, and from where it stands with one', async () => {
    const shop = shed();
    const first = async (...more: string[]) => {
      const [result] = await shop.json('diagnose', 'case.yaml', ...more);
      return result.adjustments.find((a: { id: string }) => a.id === result.first);
    };
    expect(await first()).toMatchObject({ change: 'front.bottom-out-1', from: null });
    expect(await first(...BIKE)).toMatchObject({ change: 'front.bottom-out-1', from: 3, to: 2 });
  });
  it('is not advised past its stop, and needs no look where it was counted on the stand', async () => {
    const shop = shed();
    const whole = shop.sheet();
    const write = (clicks: string) =>
      writeFileSync(join(shop.folder, 'bike.yaml'), whole.replace(/^ {2}bottom-out: \{.*$/m, clicks));
    write('  bottom-out: { clicks: 4, now: 0 }');
    const [stopped] = await shop.json('diagnose', 'case.yaml', ...BIKE);
    expect(stopped.blocked).toMatchObject([
      { id: 'front.bottom-out.close', why: 'it is at its stop (fully closed)' },
    ]);
    write('');
    // Its clicks were counted on the stand: nobody needs to look whether it is there.
    const [counted] = await shop.json('diagnose', 'case.yaml', ...BIKE);
    expect(counted.adjustments[0]).toMatchObject({ id: 'front.bottom-out.close', note: null });
  });
  it('is written, shown and checked on a sheet', async () => {
    const shop = shed();
    const set = ['front.travel=150', 'front.spring.kind=air', 'rear.travel=140', 'rear.spring.kind=air'];
    const knobs = ['front.bottom-out.clicks=4', 'front.bottom-out.now=4', 'rear.bottom-out=none'];
    const sets = [...set, ...knobs].flatMap((one) => ['--set', one]);
    await shop.out('bike', 'new', 'new.yaml', '--kind', 'trail', ...sets);
    const written = parse(readFileSync(join(shop.folder, 'new.yaml'), 'utf8'));
    expect(written.front['bottom-out']).toEqual({ clicks: 4, now: 4 });
    expect(written.rear['bottom-out']).toBe('none');
    expect(await shop.out('bike', 'show', 'bike.yaml')).toMatch(
      /Bottom-out knob +3 of 4 +2 +3 closing, 1 opening/,
    );
    expect((await shop.run('bike', 'check', 'new.yaml')).out).toContain('bottom-out knob is fully open');
  });
  it('is tried: planned, ridden, judged, and then stands where the verdict says', async () => {
    const shop = shed();
    const plan = await shop.out('trial', 'plan', '--long', ...BIKE, '--case', 'case.yaml');
    expect(plan).toContain('Front bottom-out knob, in clicks from fully closed. Now at 3');
    for (let arm = await upcoming(shop); arm !== undefined; arm = await upcoming(shop)) {
      const rating = { reference: 3, plus: 2, minus: 6, sham: 3 }[arm];
      const ratings = ['overall', 'grip'].flatMap((id) => ['--rating', `${id}=${rating}`]);
      await shop.out('trial', 'record', ...BIKE, ...ratings);
    }
    expect(await shop.out('trial', 'judge', ...BIKE)).toContain('bottom-out');
    expect(knob(shop)).toEqual({ clicks: 4, now: 2, maker: 2 });
  });
  it('is changed and taken back, in the log and on the sheet together', async () => {
    const shop = shed();
    const before = shop.sheet();
    const said = await shop.out('log', 'change', ...BIKE, 'front.bottom-out-1');
    expect(said).toMatch(/front bottom-out.* 3 → 2 clicks/);
    expect(said).toMatch(/front travel used 100% → not recorded/);
    expect(knob(shop)).toEqual({ clicks: 4, now: 2, maker: 2 });
    await shop.out('log', 'undo', ...BIKE);
    expect(parse(shop.sheet())).toEqual(parse(before));
  });
  it('stands on the pit sheet, and the model says that it does not reach it', async () => {
    const shop = shed();
    const report = await shop.out('report', 'case.yaml', ...BIKE, '--format', 'markdown');
    expect(report).toMatch(/\| Bottom-out knob .*3 of 4.*2 of 4/);
    const { code, err } = await shop.run('predict', ...BIKE, '--change', 'front.bottom-out-1');
    expect(err).toBe('front.bottom-out-1: the model does not reach front.bottom-out.\n');
    expect(code).toBe(1);
  });
});

describe('a pack whose knob does not fit', () => {
  /** What is said of packs that hold one fault a file, by file: every fault is told at once. */
  const faultsOf = async (files: readonly string[]): Promise<readonly string[]> => {
    const shop = workshop();
    mkdirSync(join(shop.folder, 'odd'));
    writeFileSync(join(shop.folder, 'odd/pack.yaml'), 'pack: odd\nversion: 0.1.0\nabout: odd\n');
    files.forEach((rules, i) => writeFileSync(join(shop.folder, `odd/odd-${i}.yaml`), rules));
    const { err, out } = await shop.run('--rules', 'odd', 'rules', 'check');
    const lines = `${err}${out}`.split('\n');
    return files.map((_, i) => lines.filter((line) => line.startsWith(`odd/odd-${i}.yaml:`)).join('\n'));
  };
  const setting = ([id, adjuster]: readonly [string, string]): string => `settings:
  - id: '${id}'
    name: odd
    plain: odd
    kind: damper
    adjuster: ${adjuster}
    directions: { 'off': { name: odd, plain: odd, prior: rarely } }
    source: from-memory
    status: draft
`;
  const FORM = [
    ['width-a', '{ unit: mm }', 'range: is missing for mm. Write the least and the most'],
    ['width-b', '{ unit: mm, range: [9, 3] }', 'range: must go from less to more.'],
    ['width-c', '{ unit: positions }', 'positions: must name where it can stand.'],
    ['width-d', '{ unit: mm, range: [1, 2], positions: [a, b] }', 'counted in mm, so it has no positions.'],
    ['width-e', '{ positions: [closed, none] }', 'none and unknown are said by the bike sheet itself.'],
  ] as const;
  const TABLE = [
    ['units', '{ unit: clicks }', 'units is a key of the bike sheet already.'],
    ['bar.width', '{ unit: clicks }', 'its name is its key on the bike sheet'],
    ['bar-width', 'rebound.lwo', 'The settings table has no knob rebound.lwo. Did you mean rebound.low?'],
  ] as const;
  it.each([
    ['form', FORM],
    ['table', TABLE],
  ])('is told where: what is against its %s', async (_, faults) => {
    const said = await faultsOf(faults.map(([id, adjuster]) => setting([id, adjuster])));
    faults.forEach(([id, , message], i) => {
      expect(said[i], id).toMatch(/^odd\/odd-\d\.yaml:\d+:\d+: error/);
      expect(said[i]).toContain(message);
    });
  });
  it('is told what no bike sheet can do or say', async () => {
    const faults = [
      [
        'change: { setting: front.tyre, by: 2, unit: clicks }',
        'changes front.tyre in clicks. Use psi, bar, kPa.',
      ],
      [
        'change: { setting: controls, by: 2, unit: mm }',
        'changes controls, which the bike sheet does not have.',
      ],
      [
        'change: { setting: front.rebound.low, by: 1.5, unit: clicks }',
        'Write a whole number that is not 0.',
      ],
      ['needs: { front.sprung: air }', 'asks the bike sheet for front.sprung, which it does not have.'],
      ['needs: { front.spring: steel }', 'asks for front.spring: steel, which the sheet never says.'],
      ['needs: { kind: endure }', 'asks for kind: endure, which the sheet never says. Did you mean enduro?'],
    ] as const;
    const said = await faultsOf(
      faults.map(
        ([line], i) => `adjustments:
  - id: odd-${i}
    do: odd
    plain: odd
    kind: cockpit
    ${line}
    minutes: 1
    fixes: { controls.off: 0.1 }
    way-back: odd
    feel: odd
    cautions: []
    source: from-memory
    status: draft
`,
      ),
    );
    faults.forEach(([line, message], i) => {
      expect(said[i], line).toContain(message);
      expect(said[i]).toContain('[sheet]');
    });
  });
});

describe('a trial of a switch', () => {
  it('names its positions on the printed sheet, at the prompt, and in the verdict', async () => {
    const shop = workshop();
    await shop.out('bike', 'set', ...BIKE, 'rear.lever=closed');
    const plan = await shop.out('trial', 'plan', '--long', ...BIKE, '--change', 'rear.lever+2');
    expect(plan).toContain('Now at closed: that is the reference.');
    expect(plan).toMatch(/ 2 +open +move it\n/);
    expect(plan).not.toMatch(/positions|\b[012] +leave it/);
    const record = await shop.out('trial', 'record', ...BIKE, '--rating', 'overall=4');
    expect(record).toContain('at closed; ');
    const judged = await shop.out('trial', 'judge', ...BIKE, '--close');
    expect(judged).toMatch(/at closed, as it was/);
  });
});
