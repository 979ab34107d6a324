/** The bike sheet through the program. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync, existsSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { askStep } from '../../src/cli/asking/sheet-step.ts';
import { newSteps } from '../../src/bike/form/new-steps.ts';
import { bikeNew, type BikeNewOptions } from '../../src/cli/commands/bike/new.ts';
import type { Io } from '../../src/host/io.ts';
import { Left, type Prompter } from '../../src/console/prompter.ts';
import { PLAIN } from '../../src/report/style.ts';
import { baseModel } from '../support/base-rules.ts';
import { scripted, type Press } from '../support/scripted.ts';
import { earshot as run, shareKept, type Ran } from '../support/io.ts';

const shelf = mkdtempSync(join(tmpdir(), 'earshot-bike-command-'));
afterAll(() => rmSync(shelf, { recursive: true, force: true }));
let cwd = '';
beforeEach(() => {
  cwd = mkdtempSync(join(shelf, 'case-'));
  shareKept(join(cwd, 'home'));
});

const earshot = (...argv: string[]): Promise<Ran> =>
  run(argv, { cwd, env: { EARSHOT_HOME: join(cwd, 'home') } });
const example = (name: string): string => resolve('examples/bikes', `${name}.yaml`);
const text = (file: string): string => readFileSync(join(cwd, file), 'utf8');
const ENOUGH = ['front.travel=170', 'front.spring.kind=air', 'rear.travel=165', 'rear.spring.kind=coil'];
const sets = (...all: string[]): string[] => all.flatMap((one) => ['--set', one]);

describe('bike new by options', () => {
  it('writes a sheet in the units asked for', async () => {
    const ran = await earshot(
      ...['bike', 'new', 'my.yaml', '--kind', 'enduro', '--units', 'bar', '--rider-mass', '185lb'],
      ...sets(...ENOUGH, 'front.spring.pressure=82 psi', 'rear.leverage=[2.9, 2.6, 2.3]', 'units.mass=lb'),
    );
    expect(ran).toMatchObject({ code: 0, out: '' });
    expect(ran.err).toBe('Written: my.yaml\nWhat else is worth writing down: earshot bike check my.yaml\n');
    const file = text('my.yaml');
    expect(file).toContain('id: my\n');
    expect(file).toContain('rider-mass: 185\n');
    expect(file).toContain('spring: { kind: air, pressure: 5.65 }');
    expect(file).toContain('leverage: [2.9, 2.6, 2.3]');
    expect((await earshot('bike', 'show', 'my.yaml')).code).toBe(0);
  });

  it('begins with what a case says the bike has', async () => {
    const has = 'has: { kind: enduro, front: { spring: air, rebound: middle }, rear: { spring: coil } }';
    writeFileSync(join(cwd, 'case.yaml'), `case: 1\nid: c\n${has}\nanswers: {}\n`);
    const more = ['--units', 'psi', ...sets('front.travel=160', 'rear.travel=150')];
    expect((await earshot('bike', 'new', 'my.yaml', '--case', 'case.yaml', ...more)).code).toBe(0);
    expect(parse(text('my.yaml'))).toMatchObject({
      kind: 'enduro',
      front: { spring: { kind: 'air' }, rebound: { low: { clicks: 'unknown', near: 'middle' } } },
      rear: { spring: { kind: 'coil' } },
    });
    writeFileSync(join(cwd, 'bare.yaml'), 'case: 1\nid: c\nanswers: {}\n');
    const bare = await earshot('bike', 'new', 'no.yaml', '--case', 'bare.yaml', ...more);
    expect(bare).toMatchObject({ code: 2, err: expect.stringContaining('bare.yaml: it does not say') });
    expect(existsSync(join(cwd, 'no.yaml'))).toBe(false);
  });

  it('of a case that found a danger says so, and so does next, with the case and without it', async () => {
    const has = 'has: { kind: enduro, front: { spring: air }, rear: { spring: coil } }';
    writeFileSync(
      join(cwd, 'knocks.yaml'),
      `case: 1\nid: knocks\n${has}\nanswers: { safety.found: loose }\n`,
    );
    const more = ['--units', 'psi', ...sets('front.travel=160', 'rear.travel=150')];
    const made = await earshot('bike', 'new', 'my.yaml', '--case', 'knocks.yaml', ...more);
    expect(made.err).toContain('STOP: do not ride this bike until what knocks.yaml found is fixed.\n');
    const next = async () => (await earshot('next', '--bike', 'my.yaml')).out.replaceAll(/\s+/g, ' ');
    expect(await next()).toMatch(
      /^Do not ride this bike: interview knocks found.* earshot diagnose \S*knocks/,
    );
    rmSync(join(cwd, 'knocks.yaml'));
    expect(await next()).toMatch(
      /^Do not ride this bike: interview knocks found.*The saved answers are gone/,
    );
  });

  it('writes down the knobs that a case says are not there', async () => {
    const has = 'has: { front: { rebound: one, compression: none }, rear: { compression: { high: none } } }';
    writeFileSync(join(cwd, 'case.yaml'), `case: 1\nid: c\n${has}\nanswers: {}\n`);
    const more = [
      '--units',
      'psi',
      '--kind',
      'trail',
      ...sets('front.spring.kind=air', 'rear.spring.kind=air'),
    ];
    expect((await earshot('bike', 'new', 'my.yaml', '--case', 'case.yaml', ...more)).code).toBe(0);
    expect(parse(text('my.yaml'))).toMatchObject({
      front: {
        rebound: { low: { clicks: 'unknown' }, high: 'none' },
        compression: { low: 'none', high: 'none' },
      },
      rear: { compression: { high: 'none' } },
    });
    expect((await earshot('bike', 'set', '--bike', 'my.yaml', 'front.compression=none')).code).toBe(0);
  });

  it('says everything that is missing or wrong at once, and writes nothing', async () => {
    const ran = await earshot(
      'bike',
      'new',
      'my.yaml',
      '--kind',
      'tandem',
      ...sets(ENOUGH[0]!, ...ENOUGH.slice(2), 'rear.tyre.now=900'),
    );
    expect(ran.code).toBe(2);
    for (const part of ['kind:', 'rear.tyre: now is 900', '--set front.spring.kind=...'])
      expect(ran.err).toContain(part);
    expect(existsSync(join(cwd, 'my.yaml'))).toBe(false);
  });

  it.each(['travel', '=5', '__proto__.x=1', 'front..travel=1'])('refuses --set %s', async (set) => {
    const ran = await earshot('bike', 'new', 'my.yaml', '--kind', 'trail', ...sets(...ENOUGH, set));
    expect(ran.code).toBe(2);
    expect(ran.err).toContain('key=value');
  });

  it('never writes over a file unasked', async () => {
    writeFileSync(join(cwd, 'my.yaml'), 'mine');
    const argv = ['bike', 'new', 'my.yaml', '--kind', 'trail', ...sets(...ENOUGH)];
    expect(await earshot(...argv)).toMatchObject({ code: 2, err: expect.stringContaining('--force') });
    expect(text('my.yaml')).toBe('mine');
    expect((await earshot(...argv, '--force')).code).toBe(0);
    expect(text('my.yaml')).toContain('kind: trail');
  });
});

it('takes which of how many positions a lever stands at, beside the names of the pack', async () => {
  const { adjusters: own } = baseModel().rules;
  const step = newSteps({}, { own }).find(({ path }) => path === 'rear.lever')!;
  const ask = (press: Press) => askStep(step, '', {}, 'x', scripted([press]));
  expect(await ask({ text: '2/5' })).toEqual([{ path: 'rear.lever', value: '2/5' }]);
  expect(await ask({ choose: 'anywhere between' })).toEqual([{ path: 'rear.lever', value: 'middle' }]);
});

describe('bike new at the prompt', () => {
  /** Answers by a part of the question; everything else is passed over. */
  function asking(answers: Readonly<Record<string, string | string[]>>): {
    prompter: Prompter;
    said: string[];
    asked: string[];
  } {
    const said: string[] = [];
    const asked: string[] = [];
    const find = (message: string): string => {
      asked.push(message);
      const key = Object.keys(answers).find((part) => message.includes(part));
      const answer = key === undefined ? '' : answers[key]!;
      if (typeof answer === 'string') return answer;
      return answer.shift() ?? '';
    };
    const prompter: Prompter = {
      style: PLAIN,
      ask: async ({ message }) => ({ value: find(message), sure: 'sure' }),
      list: () => Promise.reject(new Error('no list here')),
      text: async (message) => {
        const answer = find(message);
        if (answer === 'LEAVE') throw new Left('interrupt');
        return answer;
      },
      say: (line) => void said.push(line),
      close: () => Promise.resolve(),
    };
    return { prompter, said, asked };
  }
  const ANSWERS = {
    'What kind': 'trail',
    'Write down more': 'yes',
    'Pressures in': 'bar',
    'Wheel travel, front': '140',
    'Wheel travel, rear': '130',
    'Front spring': 'air',
    'Rear spring': 'coil',
    'Front rebound knobs': 'one knob',
    'Front rebound: clicks out': '9',
    'Front rebound: clicks from': '16',
    'Front compression knobs': 'none',
    'Rear rebound knobs': 'one knob',
    'Rear rebound: roughly where': 'nearly open',
  };
  const asked = async (
    answers: Readonly<Record<string, string | string[]>>,
    options: Partial<BikeNewOptions> = {},
  ) => {
    const { prompter, said, asked: questions } = asking(answers);
    let err = '';
    const io = {
      ...{ cwd, env: {}, stdinIsTty: true, stdoutIsTty: true, stderrIsTty: true, width: 80 },
      err: (line: string) => void (err += line),
    } as unknown as Io;
    const code = await bikeNew(
      { file: 'p.yaml', set: [], all: false, force: false, prompter: async () => prompter, ...options },
      io,
    );
    return { code, err, said: said.join(''), asked: questions };
  };

  it('asks until it is enough, and takes the name of the file for the bike', async () => {
    expect(await asked(ANSWERS)).toMatchObject({ code: 0 });
    expect(text('p.yaml')).toContain('id: p\n');
    expect(text('p.yaml')).toMatch(/front:[^]*rebound: \{ low: \{ clicks: 16, now: 9 \}/);
  });

  it('tells a knob that nobody counted from one that is not there, and asks roughly where it is', async () => {
    await asked(ANSWERS);
    const sheet = parse(text('p.yaml')) as Record<'front' | 'rear', Record<string, unknown>>;
    expect(sheet.rear['rebound']).toMatchObject({ low: { clicks: 'unknown', near: 'nearly-open' } });
    expect(sheet.front['compression']).toEqual({ low: 'none', high: 'none' });
    expect(sheet.rear['compression']).toBeUndefined();
  });

  it('says how far it is, and what a question means, and asks for all a sheet holds only when told to', async () => {
    const explained = await asked({ ...ANSWERS, 'Sag measured, front': ['?', '28'] });
    expect(explained.said).toContain('in full kit, riding position');
    expect(text('p.yaml')).toContain('sag: { measured: 28% }');
    expect(explained.asked.join('\n')).toMatch(/Sag measured, rear.*ring over the shock's stroke/);
    const places = explained.asked.map((m) => /^(\d+) of (\d+) /.exec(m)).filter((m) => m !== null);
    expect(places.length).toBeGreaterThan(10);
    for (const [, at, of] of places) expect(Number(at)).toBeLessThanOrEqual(Number(of));
    const more = explained.asked.length;
    rmSync(join(cwd, 'p.yaml'));
    const every = await asked(ANSWERS, { all: true });
    expect(every.asked.length).toBeGreaterThan(more + 12);
    rmSync(join(cwd, 'p.yaml'));
    const few = await asked({ ...ANSWERS, 'Write down more': 'no' });
    expect(few.code).toBe(0);
    expect(few.asked.length).toBeLessThan(more - 12);
  });

  it('asks again what cannot be, saying why', async () => {
    const { code, said } = await asked({ ...ANSWERS, 'Wheel travel, front': ['much', '140'] });
    expect(code).toBe(0);
    expect(said).toContain('much');
    expect(text('p.yaml')).toContain('travel: 140');
  });

  it('writes nothing when the user leaves', async () => {
    expect(await asked({ ...ANSWERS, 'Tyre pressure, rear': 'LEAVE' })).toMatchObject({
      code: 130,
      err: 'Nothing was written.\n',
    });
    expect(existsSync(join(cwd, 'p.yaml'))).toBe(false);
  });
});

describe('a sheet with mistakes in it', () => {
  const check = async (name: string, content: string): Promise<string[]> => {
    writeFileSync(join(cwd, name), content);
    const { code, err } = await earshot('bike', 'check', name);
    expect(code).toBe(1);
    return err.trimEnd().split('\n');
  };

  it('is told all of them, from the top of the file down, in YAML and in JSON', async () => {
    const yaml = await check(
      'b.yaml',
      'bike: 1\nid: b\nkind: trial\nunits: { lenght: mm }\nfront: { travel: 900 }\n',
    );
    expect(yaml.map((line) => line.split(' ')[0])).toEqual([
      'b.yaml:1:1:',
      'b.yaml:3:7:',
      'b.yaml:4:10:',
      'b.yaml:5:8:',
      'b.yaml:5:18:',
    ]);
    const json = await check(
      'b.json',
      '{"bike": 1, "id": "b", "kind": "trial",\n"front": {"travel": 900}}\n',
    );
    expect(json.map((line) => line.split(' ')[0])).toEqual([
      'b.json:1:1:',
      'b.json:1:32:',
      'b.json:2:10:',
      'b.json:2:21:',
    ]);
    expect(await check('torn.json', '{"bike": 1,\n')).toEqual([expect.stringMatching(/^torn\.json:2:1: /)]);
  });

  it('is empty: told how to begin one', async () => {
    expect(await check('e.yaml', '# nothing yet\n')).toEqual([
      'e.yaml:1:1: This file is empty. Make a sheet at the prompt: earshot bike new e.yaml --force',
    ]);
  });
});

describe('bike new at the prompt, before and between the questions', () => {
  const asked = async (
    options: Partial<BikeNewOptions>,
    answers: readonly string[],
  ): Promise<{ code: number; messages: string[]; said: string }> => {
    const messages: string[] = [];
    let said = '';
    const next = (message: string): string => {
      messages.push(message);
      const answer = answers[messages.length - 1];
      if (answer === undefined) throw new Left('interrupt');
      return answer;
    };
    const prompter: Prompter = {
      style: PLAIN,
      ask: async ({ message }) => ({ value: next(message), sure: 'sure' }),
      list: () => Promise.reject(new Error('no list here')),
      text: async (message) => next(message),
      say: (line) => void (said += line),
      close: () => Promise.resolve(),
    };
    const io = { cwd, env: {}, stdinIsTty: true, stdoutIsTty: true, err: () => undefined } as unknown as Io;
    const all = {
      file: 'p.yaml',
      set: [],
      all: false,
      force: false,
      prompter: async () => prompter,
      ...options,
    };
    return { code: await bikeNew(all, io), messages, said };
  };

  it('goes back over a slip of the finger, also over a list, and not before the first', async () => {
    const { messages, said } = await asked({ all: true }, ['back', '', 'A', 'back', 'The bike', 'trail']);
    const asks = messages.map((message) =>
      message
        .replace(/^\d+ of \d+ +/, '')
        .split(/[,(?]/)[0]!
        .trim(),
    );
    expect(asks).toEqual([
      'Short name for the bike',
      'Short name for the bike',
      'Full name',
      'What kind of bike is it',
      'Full name',
      'What kind of bike is it',
      'What can you turn',
    ]);
    expect(said).toContain('This is the first question.');
  });

  it('says where a question has no more help whether Return leaves it open', async () => {
    const { said } = await asked({ all: true }, ['A', '', 'explain', 'trail']);
    expect(said).toContain('It needs an answer');
    expect(said).not.toContain('Return leaves it open');
  });

  it('leaves open a travel that nobody knows, and takes a plain number of sag for a percentage', async () => {
    const begun = { id: 'p', name: 'P', kind: 'trail', units: 'psi', riderMass: '84' } as const;
    const set = [
      'bike-mass=15',
      'geometry.wheelbase=1200',
      'geometry.head-angle=64',
      'front.spring.kind=coil',
    ];
    const coil = ['front.spring.rate=50', 'front.spring.preload=1', 'front.spring.preload-max=3'];
    const { messages } = await asked({ ...begun, all: true, set: [...set, ...coil] }, [
      'else',
      ...['', '28', '33,5 %'],
    ]);
    expect(messages.slice(1, 4).map((message) => message.replace(/^\d+ of \d+ +/, ''))).toEqual([
      "Wheel travel, front, mm (from the specification, or measured; Return: don't know):",
      'Sag measured, front, % (in full kit, riding position):',
      "Target sag, front, % (see the manufacturer's manual):",
    ]);
    expect(messages[4]).toContain('Front rebound knobs');
  });

  it('refuses what the options say wrongly before it asks anything', async () => {
    const wrong = asked({ kind: 'tandem', set: ['front.travel=900', 'front.trvael=1'] }, []);
    await expect(wrong).rejects.toThrow(
      /^kind: found .*\nfront: trvael is not .* Did you mean travel\?\nfront: travel is 900[^\n]*$/,
    );
  });

  it.each([
    ['nowhere/p.yaml', /is not a folder/],
    ['.', /is a folder/],
  ])('refuses %s before it asks anything', async (file, why) => {
    await expect(asked({ file, force: true }, [])).rejects.toThrow(why);
  });
});

describe('bike show', () => {
  it.each(['all-knobs', 'few-knobs', 'coil'])('fits 80 columns: %s', async (name) => {
    const { out, code } = await earshot('bike', 'show', example(name));
    expect(code).toBe(0);
    expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
  });

  it('says where a knob stands, where the maker starts, and what room is left', async () => {
    const { out } = await earshot('bike', 'show', example('all-knobs'));
    expect(out).toMatch(/^ {2}Compression, low speed +9 of 16 +10 +9 closing, 7 opening$/m);
    expect(out).toMatch(/^ {2}Air spring +84 psi +82 psi +29 down, 36 up$/m);
  });

  it('gives rows to a program', async () => {
    const { rows } = JSON.parse(
      (await earshot('bike', 'show', example('all-knobs'), '--format', 'json')).out,
    );
    expect(rows).toContainEqual({
      ...{ end: 'front', setting: 'front.rebound.high', name: 'Rebound, high speed', unit: 'clicks' },
      ...{ now: 2, of: 8, maker: 4, down: 2, up: 6 },
    });
  });
});

describe('bike check', () => {
  it('exits with 1 when something must be looked at, with 0 when nothing', async () => {
    expect((await earshot('bike', 'check', example('few-knobs'))).code).toBe(1);
    expect((await earshot('bike', 'check', example('all-knobs'))).code).toBe(0);
  });

  it('tells every mistake of a file with its place', async () => {
    writeFileSync(
      join(cwd, 'b.yaml'),
      'bike: 1\nid: x\nkind: tandem\nfront: { travel: 170, spring: { kind: air } }\nrear: { travel: 9000, spring: { kind: air } }\n',
    );
    const { code, err } = await earshot('bike', 'check', 'b.yaml');
    expect(code).toBe(1);
    expect(err).toMatch(/^b\.yaml:3:\d+: /m);
    expect(err).toMatch(/^b\.yaml:5:\d+: /m);
  });

  it('exits with 2 when no such file', async () => {
    expect((await earshot('bike', 'check', 'nix.yaml')).code).toBe(2);
  });
});

describe('bike start', () => {
  it("says that the maker's sheet wins, and labels every default", async () => {
    const { out, code } = await earshot('bike', 'start', example('few-knobs'));
    expect(code).toBe(0);
    expect(out).toContain('Your fork and shock manuals win');
    expect(out.split('\nAssumed\n')[1]!.match(/^  - /gm)!.length).toBeGreaterThan(3);
    expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
  });

  it('writes a sheet that reads back with the starting points in it', async () => {
    expect((await earshot('bike', 'start', example('coil'), '--write', 's.yaml')).code).toBe(0);
    const shown = JSON.parse((await earshot('bike', 'show', 's.yaml', '--format', 'json')).out);
    const start = JSON.parse((await earshot('bike', 'start', example('coil'), '--format', 'json')).out);
    expect(shown.sheet).toEqual(start.sheet);
    expect(shown.sheet.rear.rebound.low.now).toBe(start.ends.rear.clicks[0].begin);
    expect((await earshot('bike', 'start', example('coil'), '--write', 's.yaml')).code).toBe(2);
  });
});
