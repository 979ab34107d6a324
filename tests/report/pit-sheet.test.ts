import { createHash } from 'node:crypto';
import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { workshop } from '../story/place.ts';
import { earshot } from '../support/io.ts';

const CASES = resolve(import.meta.dirname, '../../examples/cases');
let dir: string;
beforeAll(() => void (dir = mkdtempSync(join(tmpdir(), 'earshot-report-'))));
afterAll(() => rmSync(dir, { recursive: true }));

const fresh = async (name: string): Promise<string> => {
  const { code, out, err } = await earshot(['report', join(CASES, `${name}.yaml`)]);
  expect({ code, err: code === 0 ? '' : err }).toEqual({ code: 0, err: '' });
  return out;
};
/** Each example's page is made once: the model of the bike takes its time. */
const pages = new Map<string, Promise<string>>();
const html = (name: string): Promise<string> => {
  const page = pages.get(name) ?? fresh(name);
  pages.set(name, page);
  return page;
};
/** The words of a page, without its tags. */
const words = (page: string): string =>
  page
    .replace(/<style>.*?<\/style>/s, '')
    .replace(/<[^>]*>/g, ' ')
    .replace(/&#39;/g, "'")
    .replace(/\s+/g, ' ');
const section = (page: string, heading: string): string =>
  new RegExp(`<h2>${heading}</h2>(.*?)</section>`, 's').exec(page)?.[1] ?? '';

/** Every element closed, in order. */
function unclosed(page: string): string[] {
  const open: string[] = [];
  const wrong: string[] = [];
  for (const [, close, name, self] of page
    .replace(/<!doctype html>/, '')
    .replace(/<style>.*?<\/style>/s, '')
    .matchAll(/<(\/?)([a-z][a-z0-9]*)[^>]*?(\/?)>/g)) {
    if (self === '/') continue;
    if (close === '') open.push(name!);
    else if (open.pop() !== name) wrong.push(name!);
  }
  return [...wrong, ...open];
}

describe('a pit sheet', () => {
  test('holds the first change, its reasons, the trial, the settings before and after, and the cautions', async () => {
    const page = await html('fork-packs-down');
    expect(unclosed(page)).toEqual([]);
    const first = words(section(page, 'Do this first'));
    expect(first).toContain('Open the front high-speed rebound');
    expect(first).toContain('2 clicks out (2 → 4 from closed)');
    expect(first).toContain('To undo close it by the same number of clicks');
    const why = words(section(page, 'Why'));
    expect(why).toMatch(/Front high-speed rebound too slow : \d+ % before the first question, \d+ % now/);
    expect(why).toMatch(/each one harsher for, \+\d\.\d dB : \d(\.\d)? times as likely/);
    const rows = [...section(page, 'Settings, before and after').matchAll(/<tr>.*?<\/tr>/gs)].map((m) =>
      words(m[0]).trim(),
    );
    expect(rows.slice(0, 2)).toEqual(['Setting Front Rear', 'before after']);
    expect(rows).toContain('Rebound, high speed 2 of 8 4 of 8 4 of 8');
    expect(rows).toContain('Spring 84 psi 178 psi');
    const runs = [...section(page, 'The trial').matchAll(/<tr>.*?<\/tr>/gs)].map((m) => words(m[0]).trim());
    expect(runs.slice(1).map((run) => run.split(' ')[0])).toEqual(['1', '2', '3', '4']);
    // Where it stands is for whoever sets it, apart from the rows that the rider fills in.
    expect(runs[3]).toBe('3');
    expect(words(section(page, 'The trial'))).toMatch(
      /To keep the ratings: earshot trial plan --bike \S+all-knobs\.yaml --case \S+fork-packs-down\.yaml, then earshot trial record --bike \S+all-knobs\.yaml, run by run\./,
    );
    expect(words(section(page, 'The trial'))).toContain(
      'Run 1: 2, leave it. Run 2: 4, 2 clicks out. Run 3: 2, 2 clicks in. Run 4: 4, 2 clicks out.',
    );
    expect(words(section(page, 'Cautions'))).toContain('Care: Never force an adjuster');
    expect(page.match(/<svg class="plot"/g)).toHaveLength(2);
    expect(words(section(page, 'What else it does'))).toMatch(
      /At the 5th bump: [\d.]+ mm below sag → [\d.]+ mm/,
    );
  });

  test('every kind of result makes a well-formed page without a script, a link to follow, or a style attribute', async () => {
    for (const file of [
      'fork-packs-down',
      'knocks-and-leaks',
      'nothing-wrong',
      'cannot-tell-yet',
      'contradicts-itself',
      'dives-on-the-brakes',
      'shock-at-its-stop',
      'sticks-by-hand',
    ]) {
      const page = await html(file);
      expect([file, ...unclosed(page)]).toEqual([file]);
      const bad = /<script|<a |<img|<iframe|<form| style=| on\w+=|undefined|NaN|\[object|https?:/i.exec(page);
      expect([file, bad?.[0]]).toEqual([file, undefined]);
    }
  });

  test('allows its own style sheet by its hash and nothing else', async () => {
    const page = await html('fork-packs-down');
    const css = /<style>(.*?)<\/style>/s.exec(page)![1]!;
    const hash = createHash('sha256').update(css).digest('base64');
    const policy = /http-equiv="Content-Security-Policy"\s+content="([^"]*)"/
      .exec(page)![1]!
      .replaceAll('&#39;', "'");
    expect(policy.split('; ')).toEqual([
      "default-src 'none'",
      `style-src 'sha256-${hash}'`,
      'img-src data:',
      "base-uri 'none'",
      "form-action 'none'",
    ]);
    // The policy comes before anything it is to hold for.
    expect(page.indexOf('Content-Security-Policy')).toBeLessThan(page.indexOf('<link'));
    expect(page.indexOf('Content-Security-Policy')).toBeLessThan(page.indexOf('<style'));
  });

  test('of a dangerous finding says stop, and offers nothing to try', async () => {
    const page = await html('knocks-and-leaks');
    expect(words(section(page, 'Stop'))).toContain('STOP: do not ride this bike');
    expect(words(page)).toContain('Stop: There is more than one reason to stop riding');
    expect(page).not.toMatch(/The trial|Do this first|If that doesn’t fix it|class="plot"/);
  });

  test('of nothing off says leave it alone; of nothing known, what to go and find out', async () => {
    expect(words(section(await html('nothing-wrong'), 'Result'))).toContain('Leave it alone');
    const page = await html('cannot-tell-yet');
    expect(words(section(page, 'Result'))).toContain('Not sure yet: change nothing');
    expect(words(page)).toContain('Ride a single root and a row of braking bumps');
    expect(page).not.toContain('<h2>The trial</h2>');
  });

  test('without a bike sheet counts from where it stands, leaves blanks, and says why nothing is drawn', async () => {
    const page = await html('contradicts-itself');
    expect(page).not.toContain('class="plot"');
    expect(words(page)).toContain('the case has no bike sheet');
    const trial = words(section(page, 'The trial'));
    expect(trial).toContain('Run 2: start +2, 2 clicks out.');
    expect(trial).toContain('Run 3: start, 2 clicks in.');
    expect(trial).toContain('Start is at');
    expect(trial).toContain('count it first');
    const rows = section(page, 'Settings, before and after').split('<tr>').slice(3);
    // Front, and rear before; what comes after is written only where it changes.
    expect(rows.map((row) => row.match(/<td class="blank"[^>]*>\s*<\/td>/g)?.length)).toEqual(
      Array(8).fill(2),
    );
    // How far, and no more: it is the column "after" that says from where.
    expect(words(rows.find((row) => row.includes('clicks'))!).match(/\d clicks .*/)?.[0]).toBe(
      '2 clicks out ',
    );
  });

  test.each([
    ['dives-on-the-brakes', "only as far as the manufacturer's figure for now"],
    ['never-uses-its-travel', 'only if the front has an air spring'],
    ['never-uses-its-travel', 'Only if the front has a coil spring.'],
  ])('of %s says how far the step goes, and for which bike: %s', async (name, limit) => {
    expect(words(await html(name))).toContain(limit);
  });

  test('asks each thing once, and says how much it has no room for', async () => {
    const asking = async (answers: object) => {
      const { out } = await earshot(['report', '-'], {
        stdin: `${JSON.stringify({ case: 1, id: 'x', answers })}\n`,
      });
      const list = /<ol class="write small">(.*?)<\/ol>/s.exec(out)![1]!;
      return { out: words(out), asked: [...list.matchAll(/<li>(.*?)<span/gs)].map((m) => m[1]!) };
    };
    const nothing = await asking({});
    expect(nothing.asked).toHaveLength(1);
    expect(nothing.out).not.toContain('characters more');
    const ids = ['lone-hit-ride', 'chatter', 'stiction', 'sag'].flatMap((id) =>
      ['front', 'rear'].map((end) => [`${id}@${end}`, 'cannot-tell']),
    );
    const many = await asking({ complaint: 'rows', ...Object.fromEntries(ids) });
    const more = Number(/And (\d+) more in the case/.exec(many.out)?.[1]);
    expect(new Set(many.asked).size).toBe(many.asked.length);
    // What was put off, and the next question.
    expect(many.asked.length + more).toBe(ids.length + 1);
  });

  test('names what does not fit the story, so that it is asked again', async () => {
    expect(words(await html('contradicts-itself'))).toContain("Some answers don't fit together. Ask again:");
  });

  test('a change of pressure draws the spring, and asks for the sag to be measured again', async () => {
    const page = await html('dives-on-the-brakes');
    expect(words(section(page, 'What else it does'))).toContain('Front spring');
    expect(words(section(page, 'Settings, before and after'))).toMatch(/Spring 4\.9 bar \d(\.\d+)? bar/);
    expect(words(section(page, 'Settings, before and after'))).toContain('Sag 26% measure again');
  });

  test('is the same for the same case, byte for byte', async () => {
    expect(await fresh('fork-packs-down')).toBe(await html('fork-packs-down'));
  });
});

describe('texts of a case that are markup, endless or invisible', () => {
  const page = async (kase: object): Promise<string> => {
    const { code, out, err } = await earshot(['report', '-'], { stdin: `${JSON.stringify(kase)}\n` });
    expect({ code, err: code === 0 ? '' : err }).toEqual({ code: 0, err: '' });
    return out;
  };
  const ATTACK = '</style></title><script>alert(1)</script><img src=x onerror=alert(2)>"\'&amp;';

  test('markup is shown as text', async () => {
    const out = await page({ case: 1, id: ATTACK, said: ATTACK, answers: {} });
    expect(unclosed(out)).toEqual([]);
    expect(out).not.toMatch(/<script|<img|onerror=alert\(2\)>/);
    expect(out).toContain('&lt;/style&gt;&lt;/title&gt;&lt;script&gt;alert(1)');
    expect(out.match(/<style>/g)).toHaveLength(1);
  });

  test('ten thousand characters are clipped to their room', async () => {
    const out = await page({ case: 1, id: 'long', said: 'ab '.repeat(3334), answers: {} });
    expect(out).toContain('characters more in the case');
    expect(words(out).length).toBeLessThan(4000);
  });

  test('says before any number of the model that they are worth little, where an end rests beyond half its travel', async () => {
    const bike = readFileSync(resolve(CASES, '../bikes/all-knobs.yaml'), 'utf8');
    const soft = bike
      .replace('pressure: 178, min: 100 psi', 'pressure: 60, min: 40 psi')
      .replace('  sag: { measured: 30%, wanted: 29% }\n', '');
    writeFileSync(join(dir, 'deep.yaml'), soft);
    const kase = readFileSync(join(CASES, 'fork-packs-down.yaml'), 'utf8');
    writeFileSync(join(dir, 'deep-case.yaml'), kase.replace('../bikes/all-knobs.yaml', 'deep.yaml'));
    const { out } = await earshot(['report', join(dir, 'deep-case.yaml')]);
    const cautions = words(section(out, 'Cautions'));
    expect(cautions).toMatch(
      /^ *Care: With the numbers of its sheet the rear rests [5-9]\d % into its travel/i,
    );
    expect(out.indexOf(' % into its travel')).toBeLessThan(out.indexOf('<svg'));
  });
  test('controls and signs that turn the direction of writing do not reach the page', async () => {
    const out = await page({ case: 1, id: 'x', said: 'a\u0000b\u001b[2Jc\u202Egnp.exe', answers: {} });
    expect(out).toContain('a\uFFFDb\uFFFD[2Jc\uFFFDgnp.exe');
    for (const sign of ['\0', '\u001b', '\u202e']) expect(out).not.toContain(sign);
  });

  test('in Markdown too', async () => {
    const { out } = await earshot(['report', '-', '--format', 'markdown'], {
      stdin: `${JSON.stringify({ case: 1, id: '# <b>x</b> | [a](javascript:1)', said: '**bold** `code`\n# head', answers: {} })}\n`,
    });
    expect(out).toContain('# Pit sheet: \\# \\<b\\>x\\</b\\> \\| \\[a\\](javascript:1)');
    expect(out).toContain('> \\*\\*bold\\*\\* \\`code\\` \\# head');
  });
});

describe('earshot report --out', () => {
  const KASE = join(CASES, 'fork-packs-down.yaml');
  const at = (...argv: string[]) => earshot(['report', ...argv], { cwd: dir });

  test('writes what it would print, and prints nothing', async () => {
    const { code, out } = await at(KASE, '--out', 'sheet.html');
    expect([code, out]).toEqual([0, '']);
    expect(readFileSync(join(dir, 'sheet.html'), 'utf8')).toBe((await at(KASE, '--out', '-')).out);
    expect(readdirSync(dir).filter((name) => name.includes('aside'))).toEqual([]);
  });

  test('writes over a file that is there only when told to', async () => {
    writeFileSync(join(dir, 'old.md'), 'old');
    const argv = [KASE, '--format', 'markdown', '--out', 'old.md'];
    const { code, err } = await at(...argv);
    expect([code, err]).toEqual([
      2,
      'old.md already exists. Choose another name, or overwrite it with --force.\n',
    ]);
    expect(readFileSync(join(dir, 'old.md'), 'utf8')).toBe('old');
    expect((await at(...argv, '--force')).code).toBe(0);
    expect(readFileSync(join(dir, 'old.md'), 'utf8')).toMatch(/^# Pit sheet: fork-packs-down/);
  });

  test('refuses a folder, a folder that is not there, and what is no plain file', async () => {
    for (const [out, says] of [
      ['.', 'this is a folder'],
      ['no/such/sheet.html', 'there is no such folder'],
      ['/dev/null', 'not a regular file'],
    ] as const) {
      const { code, err } = await at(KASE, '--out', out);
      expect([code, err]).toEqual([2, expect.stringContaining(says)]);
    }
  });

  test('never takes the place of the case or the bike it is made from, also under another name', async () => {
    const [kase, bike] = [
      'case: 1\nid: c\nbike: bike.yaml\nanswers: {}\n',
      readFileSync(join(CASES, '../bikes/coil.yaml'), 'utf8'),
    ];
    writeFileSync(join(dir, 'case.yaml'), kase);
    writeFileSync(join(dir, 'bike.yaml'), bike);
    symlinkSync(join(dir, 'case.yaml'), join(dir, 'link.html'));
    for (const out of ['case.yaml', './case.yaml', 'bike.yaml', 'link.html']) {
      const { code, err } = await at('case.yaml', '--out', out, '--force');
      expect([out, code, err]).toEqual([out, 2, expect.stringContaining('would overwrite')]);
    }
    expect(readFileSync(join(dir, 'case.yaml'), 'utf8')).toBe(kase);
    expect(readFileSync(join(dir, 'bike.yaml'), 'utf8')).toBe(bike);
  });

  test('nor of a kept interview or a bike that is named by its name alone', async () => {
    const shop = workshop();
    const kept = join(shop.env['EARSHOT_HOME']!, 'interviews');
    mkdirSync(kept, { recursive: true });
    writeFileSync(join(kept, 'tansy.yaml'), 'case: 1\nid: tansy\nanswers: {}\n');
    await shop.out('log', 'note', 'fresh oil', '--bike', 'bike.yaml');
    const [interview, sheet] = [readFileSync(join(kept, 'tansy.yaml'), 'utf8'), shop.sheet()];
    for (const out of ['bike.yaml', 'home/interviews/tansy.yaml']) {
      const { code, err } = await shop.run('report', 'tansy', '--bike', 'birch', '--out', out, '--force');
      expect([out, code, err]).toEqual([out, 2, expect.stringContaining('would overwrite')]);
    }
    expect(readFileSync(join(kept, 'tansy.yaml'), 'utf8')).toBe(interview);
    expect(shop.sheet()).toBe(sheet);
  });

  test.each(['html', 'markdown'])(
    'keeps what is checked before riding in the head of its %s',
    async (format) => {
      const stdin = JSON.stringify({
        case: 1,
        id: 'x',
        said: 'clunk up front every time I pull the front brake',
        answers: { complaint: 'noise', 'knock-when': 'brake', 'safety.brakes': 'good' },
      });
      const { out } = await earshot(['report', '-', '--format', format], { stdin });
      const head = words(out).split('Cautions')[0]!;
      expect(head).toMatch(/Check before riding: .*was said\. Anything loose/);
      expect(head).toContain('Rock test before riding');
    },
  );

  test('a sheet is for one case, from a file or from standard input', async () => {
    const two = '{"case":1,"id":"a"}\n{"case":1,"id":"b"}\n';
    writeFileSync(join(dir, 'two.ndjson'), two);
    const says = { code: 2, out: '', err: expect.stringContaining('more than one case') as string };
    expect(await at('two.ndjson')).toMatchObject(says);
    expect(await earshot(['report', '-'], { cwd: dir, stdin: two })).toMatchObject(says);
  });

  test('names every mistake of a case and of the place at once, and leaves what is there alone', async () => {
    writeFileSync(join(dir, 'kept.html'), 'kept');
    writeFileSync(join(dir, 'bad.yaml'), 'case: 1\nbik: b.yaml\nanswers: {no-such: x, complaint: never}\n');
    const { code, out, err } = await at('bad.yaml', '--out', 'kept.html');
    expect([code, out]).toEqual([1, '']);
    const lines = err.trim().split('\n');
    expect(lines.map((line) => line.slice(0, 14))).toEqual([
      'bad.yaml:2:1: ',
      'bad.yaml:3:11:',
      expect.stringContaining('bad.yaml:3:'),
      'kept.html alre',
    ]);
    expect((await at('absent.yaml', '--out', 'kept.html', '--force')).code).toBe(2);
    expect(readFileSync(join(dir, 'kept.html'), 'utf8')).toBe('kept');
    expect(readdirSync(dir).filter((name) => name.startsWith('.'))).toEqual([]);
  });

  test('leaves nothing half-written where it cannot be written', async () => {
    // Even one who may write everywhere cannot write a name this long.
    const { code, out, err } = await at(KASE, '--out', `${'x'.repeat(300)}.html`);
    expect([code, out, err]).toEqual([2, '', expect.stringContaining('cannot be written: ')]);
    expect(readdirSync(dir).filter((name) => name.startsWith('.') || name.startsWith('x'))).toEqual([]);
  });
});
