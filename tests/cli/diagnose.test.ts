import { mkdtempSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { resultSchema } from '../../src/report/rules/result-schema.ts';
import { earshot } from '../support/io.ts';

let dir: string;
beforeAll(() => {
  dir = mkdtempSync(join(tmpdir(), 'earshot-'));
  mkdirSync(join(dir, 'folder'));
  const files: Record<string, string | Uint8Array> = {
    'good.yaml':
      'case: 1\nid: good\nanswers:\n  hit-pattern: row\n  repeated-hits.trend@front: worse\n  return-speed@front: deep\n  run-trend: section\n',
    'two.yaml':
      'case: 1\nid: a\nanswers: {hit-pattern: row}\n---\ncase: 1\nid: b\nanswers: {hit-pattern: one}\n',
    'lines.ndjson':
      '{"case":1,"id":"a","answers":{"hit-pattern":"row"}}\n\n{"case":1,"id":"b","answers":{"hit-pattern":"rows"}}\nnot json\n{"case":1,"id":"c","answers":{}}\n',
    'latin.yaml': Uint8Array.from([0x63, 0x61, 0x73, 0x65, 0x3a, 0x20, 0xe9, 0x0a]),
    'broken.yaml': 'case: 1\nanswers: {hit-pattern: row\n',
    'twice.yaml': 'case: 1\nanswers:\n  hit-pattern: row\n  hit-pattern: one\n',
    'bomb.yaml': 'a: &a [x,x,x,x,x,x,x,x]\nb: &b [*a,*a,*a,*a,*a,*a,*a,*a]\nc: [*b,*b,*b,*b,*b,*b,*b,*b]\n',
    'slip.yaml': 'case: 1\nanswers:\n  hit-patern: row\n  repeated-hits.trend: worse\n  trouble-end: fornt\n',
    'newer.yaml': 'case: 7\n',
    'empty.yaml': '',
    'gate.yaml': 'case: 1\nid: gate\nanswers:\n  hit-pattern: one\n  repeated-hits.trend@front: worse\n',
    'no-bike.yaml': 'case: 1\nid: x\nbike: nowhere.yaml\nanswers: {}\n',
    'bad-bike.yaml': 'case: 1\nid: x\nbike: sheet.yaml\nanswers: {}\n',
    'sheet.yaml':
      'bike: 1\nid: s\nkind: trail\nfront: {travel: 150, spring: {kind: air}, rebound: {low: {clicks: 10, now: 14}}}\nrear: {travel: 140, spring: {kind: air}}\n',
  };
  for (const [name, text] of Object.entries(files)) writeFileSync(join(dir, name), text);
});
afterAll(() => rmSync(dir, { recursive: true }));

const at = (argv: string[], stdin?: string | Uint8Array) =>
  earshot(argv, { cwd: dir, ...(stdin === undefined ? {} : { stdin }) });

describe('earshot diagnose', () => {
  it('puts the one thing to do first, with its size, its why and its way back', async () => {
    const { code, out, err } = await at(['diagnose', 'good.yaml']);
    expect(code).toBe(0);
    expect(err).toBe('');
    expect(out).toMatch(/\n\nDo this first\n {2}Open the front high-speed rebound: 2 clicks out/);
    expect(out).toMatch(/Why: front high-speed rebound too slow/);
    expect(out).toContain('To undo: close it by the same');
    expect(out).toContain('  ! Never force an adjuster');
  });
  it('keeps to 80 columns, also with everything shown', async () => {
    const { out } = await at(['diagnose', 'good.yaml', '--full']);
    expect(Math.max(...out.split('\n').map((l) => l.length))).toBeLessThanOrEqual(80);
  });
  it('gives the same bytes for the same case, whatever the order of its answers', async () => {
    const forward =
      '{"case":1,"id":"x","answers":{"hit-pattern":"row","repeated-hits.trend@front":"worse","run-trend":"section"}}\n';
    const back =
      '{"case":1,"id":"x","answers":{"run-trend":"section","repeated-hits.trend@front":"worse","hit-pattern":"row"}}\n';
    const one = await at(['diagnose', '-', '--format', 'ndjson', '--next', '--explain'], forward);
    expect((await at(['diagnose', '-', '--format', 'ndjson', '--next', '--explain'], back)).out).toBe(
      one.out,
    );
  });
  it('writes results that its own schema accepts, in JSON and NDJSON', async () => {
    const json = await at(['diagnose', 'good.yaml', 'two.yaml', '--format', 'json']);
    const all = JSON.parse(json.out) as unknown[];
    expect(all).toHaveLength(3);
    for (const one of all) expect(resultSchema.safeParse(one).error).toBeUndefined();
    const lines = (await at(['diagnose', 'two.yaml', '--format', 'ndjson'])).out.trim().split('\n');
    for (const line of lines) expect(resultSchema.safeParse(JSON.parse(line)).error).toBeUndefined();
  });
  it('writes one CSV line a case under a header', async () => {
    const { out } = await at(['diagnose', 'two.yaml', '--format', 'csv']);
    const [header, a, b, end] = out.split('\n');
    // Reserved in SQL:2016 (from memory) or in common databases: a table with such a column must quote it everywhere.
    const reserved = [
      'case',
      'from',
      'to',
      'first',
      'next',
      'at',
      'change',
      'nothing',
      'order',
      'group',
      'end',
    ];
    for (const name of header!.split(',')) expect(reserved).not.toContain(name);
    expect(header!.split(',')).toHaveLength(20);
    expect([a!.split(',')[0], b!.split(',')[0], end]).toEqual(['a', 'b', '']);
  });
  it('does the other records when one is bad, and says so in the exit code', async () => {
    const { code, out, err } = await at(['diagnose', 'lines.ndjson', '--format', 'ndjson']);
    expect(code).toBe(1);
    expect(
      out
        .trim()
        .split('\n')
        .map((l) => (JSON.parse(l) as { case: string }).case),
    ).toEqual(['a', 'c']);
    expect(err.trim().split('\n')).toEqual([
      expect.stringMatching(
        /^lines\.ndjson:3: answers › hit-pattern: hit-pattern has no answer rows\. Did you mean row\?$/,
      ),
      expect.stringMatching(
        /^lines\.ndjson:4: this line is not JSON \(.*\)\. Write one JSON object a line\.$/,
      ),
      '2 of 4 failed: lines.ndjson:3, lines.ndjson:4. The rest were told. Exit code 1.',
    ]);
  });
  it('has a row in a table for a case that failed, under its id, with why', async () => {
    const { out } = await at(['diagnose', 'lines.ndjson', 'nothing.yaml', '--format', 'csv']);
    const rows = out.trim().split('\n').slice(1);
    expect(rows.map((row) => row.split(',').slice(0, 2))).toEqual([
      ['a', expect.not.stringContaining('failed')],
      ['b', 'failed'],
      ['lines.ndjson:4', 'failed'],
      ['c', expect.not.stringContaining('failed')],
      ['nothing.yaml', 'failed'],
    ]);
    // Every column is there: the reason in the last.
    expect(rows[1]).toMatch(/^b,failed,{18}lines\.ndjson:3: .* Did you mean row\?$/);
  });
  it.each(['text', 'json', 'ndjson', 'csv', 'markdown'])(
    'sums up at the end what failed of several, as %s, and not of one',
    async (form) => {
      const several = await at(['diagnose', 'nothing.yaml', 'newer.yaml', 'good.yaml', '--format', form]);
      expect(several.code).toBe(2);
      const told = '2 of 3 failed: nothing.yaml, newer.yaml. The rest were told. Exit code 2.\n';
      expect(several.err.endsWith(told)).toBe(true);
      const none = await at(['diagnose', 'newer.yaml', 'newer.yaml', '--format', form]);
      expect(none.err.endsWith('2 of 2 failed: newer.yaml, newer.yaml. Exit code 1.\n')).toBe(true);
      expect((await at(['diagnose', 'newer.yaml', '--format', form])).err).not.toContain('failed');
    },
  );
  it('names the first of many that failed, and counts the rest', async () => {
    const lines = Array.from({ length: 13 }, () => 'no').join('\n');
    const { err } = await at(['diagnose', '-', '--format', 'ndjson'], lines.replace('no', '{"case":1}'));
    expect(err).toContain('12 of 13 failed: stdin:2, ');
    expect(err).toContain(', stdin:11 and 2 more. The rest were told. Exit code 1.\n');
  });
  it.each([
    ['text', ['next', 'explain'], ['--format text has no place for --next: add --full.']],
    ['csv', ['full', 'explain'], ['--format csv has no place for --explain: use --format ndjson.']],
    ['markdown', ['explain'], ['use --format json, or earshot explain CASE.']],
  ])('refuses what %s would pass over: %j', async (form, options, told) => {
    const all = options.map((one) => `--${one}`);
    const { code, out, err } = await at(['diagnose', 'good.yaml', '--format', form, ...all]);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err.trim().split('\n')).toHaveLength(options.length);
    for (const one of told) expect(err).toContain(one);
  });
  it.each([
    ['text', '--full', '--next', '--explain'],
    ['json', '--full', '--next', '--explain'],
    ['ndjson', '--full', '--next', '--explain'],
    ['csv', '--next'],
    ['markdown', '--full', '--next'],
  ])('takes what %s has a place for: %s %s %s', async (form, ...options) => {
    expect((await at(['diagnose', 'good.yaml', '--format', form, ...options])).code).toBe(0);
  });
  it('says that an answer does not count when its question did not apply', async () => {
    const { code, out, err } = await at(['diagnose', 'gate.yaml', '--format', 'ndjson']);
    expect(code).toBe(0);
    const warning =
      'The answer to "Row of bumps: does the front get harsher with each hit, stay the same, or skip?" was not counted: it does not apply after "on a single hit" to "A single hit, a row of hits, or every bump?".';
    expect((JSON.parse(out) as { warnings: string[] }).warnings).toEqual([warning]);
    expect(err).toContain(warning);
  });
});

describe('bad input, one clear line each, the rest done', () => {
  it.each([
    ['nothing.yaml', 'nothing.yaml: no such file. Check the name and the folder.'],
    ['folder', 'folder: this is a folder. Name a file.'],
    ['latin.yaml', 'latin.yaml: this is not UTF-8 text. Save it as UTF-8.'],
    ['empty.yaml', 'empty.yaml: the file is empty. Write a case; see examples/cases.'],
    ['newer.yaml', 'newer.yaml:1:7: This case has format 7; this program reads format 1.'],
    ['twice.yaml', 'twice.yaml:4:3: error: This key is here twice. Keep one of the two. [duplicate-key]'],
    ['bomb.yaml', 'bomb.yaml: error: The aliases of this file expand without bound.'],
    ['broken.yaml', 'broken.yaml:'],
    ['no-bike.yaml', 'no-bike.yaml:3:7: bike: nowhere.yaml: no such file.'],
    ['bad-bike.yaml', 'sheet.yaml:4:'],
  ])('%s', async (file, expected) => {
    const { code, out, err } = await at(['diagnose', file, 'good.yaml', '--format', 'ndjson']);
    expect(err).toContain(expected);
    expect(err).not.toMatch(/\n\s+at /);
    expect(code).toBe(['nothing.yaml', 'folder', 'latin.yaml'].includes(file) ? 2 : 1);
    expect(JSON.parse(out)).toMatchObject({ case: 'good' });
  });
  it('tells of a bike that is not there and of all else that is wrong with the case, from the top down', async () => {
    const written = `case: 1
id: all
bike: nowhere.yaml
answers:
  hit-pattern: { answer: row, sure: perhaps }
  sag@rear: { measured: 30x }
  nosuch: 'yes'
tried:
  - { setting: rebound.low, end: front, direction: sideways, result: worse }
`;
    writeFileSync(join(dir, 'all.yaml'), written);
    const { code, err } = await at(['diagnose', 'all.yaml']);
    expect(code).toBe(1);
    expect(err.split('\n').map((line) => line.slice(0, 60))).toEqual([
      'all.yaml:3:7: bike: nowhere.yaml: no such file. Check the na',
      'all.yaml:5:37: answers › hit-pattern › sure: found "perhaps"',
      'all.yaml:6:25: 30x is not a sag. Write it like 27 % or 16/60',
      'all.yaml:7:3: There is no question nosuch. See earshot rules',
      'all.yaml:9:5: front.rebound.low: sideways is not a direction',
      '',
    ]);
    // Beside nothing but the bike too; and where no file says a place, entries are counted from 1.
    const line = JSON.stringify({ ...parse(written), answers: {} });
    const piped = await at(['diagnose', '-', '--format', 'ndjson'], line);
    expect(piped.err).toBe(
      'stdin:1: bike: nowhere.yaml: no such file. Check the name and the folder.\nstdin:1: tried › entry 1: front.rebound.low: sideways is not a direction; use open or close.\n',
    );
  });
  it('says of cases without a line between them where each begins, and of nothing that follows from it', async () => {
    const [one, other] = ['one', 'other'].map(
      (id) => `case: 1\nid: ${id}\nanswers:\n  hit-pattern: row\n`,
    ) as [string, string];
    const { err } = await at(['diagnose', '-'], `${one}${other}  hit-pattern: one\n${one}`);
    expect(err).toBe(
      [
        'stdin:5:1: error: Another case begins here. Write a line with --- before it. [duplicate-key]',
        'stdin:9:3: error: This key is here twice. Keep one of the two. [duplicate-key]',
        'stdin:10:1: error: Another case begins here. Write a line with --- before it. [duplicate-key]',
        '',
      ].join('\n'),
    );
    expect((await at(['diagnose', '-'], `${one}---\n${other}`)).code).toBe(0);
  });
  it.each(['good.yaml\n', './good.yaml\n/tmp/a b.ndjson\n'])(
    'is told of names of files: %j',
    async (names) => {
      expect((await at(['diagnose', '-'], names)).err).toBe(
        'stdin: these are names of files, and no cases. Name them on the line: earshot diagnose FILE ...\n',
      );
    },
  );
  it('is told of a picture that it is no text, and of a number in the place of an answer how it is written', async () => {
    writeFileSync(join(dir, 'picture.png'), new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0, 0, 0, 0x0d]));
    expect((await at(['diagnose', 'picture.png'])).err).toContain('this is no text, but a picture');
    const of = async (answer: string): Promise<string> => {
      writeFileSync(join(dir, 'number.yaml'), `case: 1\nid: n\nanswers: { ${answer} }\n`);
      return (await at(['diagnose', 'number.yaml'])).err;
    };
    expect(await of('sag@rear: 12')).toContain('what was measured as {measured: 12 %}.');
    expect(await of('sag@rear: 12%')).toContain('A number is written as sag@rear: {measured: 12%}.');
    expect(await of('tyre-target@rear: { measured: 28 }')).toContain(
      '{measured: 28, target: ...}, in the same unit.',
    );
  });
  it.each([
    'diagnose nothing.yaml',
    'explain nothing.yaml',
    'report nothing.yaml',
    'diagnose good.yaml --bike nothing.yaml',
    'bike show nothing.yaml',
    'bike set front.rebound.low=3 --bike nothing.yaml',
    'predict --bike nothing.yaml --change front.rebound.low+2',
    'log --bike nothing.yaml',
    'next --bike nothing.yaml',
    'trial plan --bike nothing.yaml --change front.rebound.low+2',
    'rules learn nothing.yaml',
    'rules check --rules nothing',
  ])('takes a missing file for wrong usage, whatever the command: %s', async (line) => {
    const { code, err } = await at(line.split(' '));
    expect([code, err]).toEqual([2, expect.stringMatching(/^nothing(?:\.yaml)?: .*no such f/)]);
  });
  it('tells all that is wrong with a case at once, with line and column', async () => {
    const { err } = await at(['diagnose', 'slip.yaml']);
    expect(err.trim().split('\n')).toEqual([
      'slip.yaml:3:3: There is no question hit-patern. Did you mean hit-pattern?',
      'slip.yaml:4:3: There is no question repeated-hits.trend. Say which end: repeated-hits.trend@front or repeated-hits.trend@rear or repeated-hits.trend@either where that is not known.',
      'slip.yaml:5:16: trouble-end has no answer fornt. Did you mean front?',
    ]);
  });
  it('skips a line of 3 MB without keeping it', async () => {
    const long = `{"case":1,"id":"${'x'.repeat(3_000_000)}"}\n{"case":1,"id":"after","answers":{}}\n`;
    const { code, out, err } = await at(['diagnose', '-', '--format', 'ndjson'], long);
    expect(err).toBe(
      'stdin:1: this line has 3.0 MB; a case has at most 1 MB. Check what wrote it.\n1 of 2 failed: stdin:1. The rest were told. Exit code 1.\n',
    );
    expect(code).toBe(1);
    expect(JSON.parse(out)).toMatchObject({ case: 'after' });
  });
  it('refuses an empty input', async () => {
    const { code, err } = await at(['diagnose', '-'], '');
    expect(code).toBe(1);
    expect(err).toContain('stdin: there is nothing to read.');
  });
  it.each([
    [['diagnos', 'x'], 'Did you mean diagnose?'],
    [['diagnose'], "missing required argument 'files'"],
    [['diagnose', 'good.yaml', '--format', 'xml'], 'Allowed choices are text, json, ndjson, csv, markdown.'],
    [
      ['explain', 'good.yaml', 'front.rebound.hi.too-slow'],
      'There is no cause front.rebound.hi.too-slow. Did you mean front.rebound.high.too-slow?',
    ],
    [['rules', 'show', 'hit-patern'], 'Nothing has the id hit-patern. Did you mean hit-pattern?'],
    [['--rules', 'folder', 'diagnose', 'good.yaml'], 'folder: there is no pack.yaml in this folder.'],
    [['interview'], 'An interview needs a terminal. For saved answers use: earshot diagnose CASE.yaml'],
  ])('refuses %j with exit 2', async (argv, expected) => {
    const { code, err } = await at(argv);
    expect(err).toContain(expected);
    expect(code).toBe(2);
  });
});

describe('earshot explain', () => {
  it('lists decibans that add up to the change from the prior odds, nearly', async () => {
    const { out } = await at(['explain', 'good.yaml', 'front.rebound.high.too-slow', '--format', 'json']);
    const { causes } = JSON.parse(out) as { causes: { id: string; evidence: { decibans: number }[] }[] };
    expect(causes).toHaveLength(1);
    expect(causes[0]!.evidence.every((e) => e.decibans > 0)).toBe(true);
  });
});

describe('the examples', () => {
  it('all run without a word on stderr', async () => {
    const { readdirSync } = await import('node:fs');
    const folder = 'examples/cases';
    const files = readdirSync(folder).map((f) => join(folder, f));
    expect(files.length).toBeGreaterThanOrEqual(24);
    const { code, err } = await earshot(['diagnose', ...files, '--format', 'ndjson']);
    expect(err).toBe('');
    expect(code).toBe(0);
    expect(readFileSync('examples/batch.ndjson', 'utf8').trim().split('\n')).toHaveLength(500);
  });
  it('print what the README shows', async () => {
    const shown = /## What it prints\n\n```text\n(.*?)```/s.exec(readFileSync('README.md', 'utf8'))![1];
    expect((await earshot(['diagnose', 'examples/cases/fork-packs-down.yaml'])).out).toBe(shown);
  });
});

describe('a fork whose knobs nobody told of', () => {
  const told = async (has: Readonly<Record<string, unknown>>) => {
    const answers = {
      'safety.found': 'none',
      'trouble-end': 'front',
      'landing@front': 'hits',
      'travel-part@front': 'soggy',
      'push-return@front': 'creeps',
      'sag@front': 'more',
    };
    const kase = JSON.stringify({ case: 1, id: 'k', has, answers });
    return (await earshot(['diagnose', '-', '--full'], { stdin: `${kase}\n` })).out.replaceAll(/\s+/g, ' ');
  };
  it('is given the one way to turn rebound once', async () => {
    const unknown = await told({ kind: 'hardtail' });
    expect(unknown).toContain('Open the front low-speed rebound');
    expect(unknown).not.toContain('Open the front high-speed rebound');
  });
  it('is given both where both knobs were told, with side effects of its own kind of bike', async () => {
    const both = await told({ kind: 'hardtail', front: { spring: 'air', rebound: 'two' } });
    expect(both).toContain('Open the front high-speed rebound');
    expect(both).toContain('on a default hardtail bike:');
    expect(both).not.toContain('enduro');
  });
});

describe('a part that a sheet does not speak of', () => {
  const notes = async (answers: Readonly<Record<string, string>>): Promise<string | null> => {
    const kase = JSON.stringify({ case: 1, id: 'l', answers });
    const { out } = await earshot(['diagnose', '-', '--format', 'json'], { stdin: `${kase}\n` });
    const [result] = JSON.parse(out) as [{ adjustments: { id: string; note: string | null }[] }];
    return result.adjustments.find(({ id }) => id === 'rear.lever.open')!.note;
  };
  const said = { 'safety.found': 'none', 'safety.brakes': 'good', complaint: 'stiff', 'trouble-end': 'rear' };
  it('is to be looked for, until a look on the stand found it', async () => {
    expect(await notes({ ...said, 'hit-pattern': 'every' })).toContain(
      'Check first that there is a rear climb lever',
    );
    expect(await notes({ ...said, 'lever@rear': 'closed' })).toBeNull();
  });
});
