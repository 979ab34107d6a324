import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { earshot } from '../support/io.ts';

let pack = '';

beforeAll(() => {
  pack = mkdtempSync(join(tmpdir(), 'check-'));
  const write = (name: string, text: string): void => writeFileSync(join(pack, name), text);
  write('pack.yaml', 'pack: mine\nversion: 0.1.0\nabout: rules of a test\n');
  write(
    'words.yaml',
    `words:
  - id: of-the-trade
    says: [packs down, 'it is on'] # the second holds no word to look up
    source: common-practice
`,
  );
  write(
    'mine.checks.yaml',
    `checks:
  - name: mine, shut by its gate
    given: { hit-pattern: one, 'repeated-hits.trend@front': worse }
    expect: { not: ['front.rebound.high.too-slow'] }
  - name: mine, on a bike nobody can read
    given: { hit-pattern: row }
    bike: { front: { sag: lots } }
    expect: { not: ['front.rebound.high.too-slow'] }
  - name: mine, and good
    given: { complaint: rows, hit-pattern: row, 'repeated-hits.trend@front': worse }
    expect: { first: 'front.rebound.low.too-slow' }
  - name: few words, on a bike that anybody can read
    given: { stiction@front: sticky }
    expect: { not: ['rear.rebound.low.too-slow'] }
`,
  );
});

afterAll(() => rmSync(pack, { recursive: true, force: true }));

describe('rules check', () => {
  it('says which answer of a check its gate sets aside, and which phrase is never found', async () => {
    const { out, code } = await earshot(['--rules', pack, 'rules', 'check', '--only', '^mine, (shut|and)']);
    expect(code).toBe(1);
    const lines = out.split('\n').map((l) => l.replace(/^.*\//, ''));
    expect(lines).toContain(
      'mine.checks.yaml:2:5: error: "mine, shut by its gate": its answer to repeated-hits.trend@front is set aside, because hit-pattern is one; leave it out, or answer hit-pattern otherwise. Fix the rule, or the check. [check-failed]',
    );
    expect(lines).toContain(
      'words.yaml:2:1: error: of-the-trade: "it is on" has no word that counts, so it is never found. Add a word that carries the meaning, or take it out. [never-found]',
    );
    expect(out).toContain('2 checks, 1 passed; 2 errors');
  });

  it('says each mistake in the bike of a check on a line of its own, with its remedy', async () => {
    const { out } = await earshot(['--rules', pack, 'rules', 'check', '--only', '^mine, on']);
    const lines = out.split('\n').filter((line) => line.includes('mine.checks.yaml:5:5'));
    const own = lines.map(
      (line) =>
        /: error: the bike of "mine, on a bike nobody can read": (.*) \[check-failed\]$/.exec(line)![1]!,
    );
    expect(own).toContain(
      'A bike sheet: kind is missing. Add kind: one of hardtail, cross-country, trail, enduro, downhill, e-bike.',
    );
    expect(own.filter((text) => text.includes('sag'))).toHaveLength(1);
  });
});

describe('rules check --sensitivity', () => {
  it('says which checks it had to leave out, and ends with 1', async () => {
    const args = ['--rules', pack, 'rules', 'check', '--sensitivity', '--only', 'body can read'];
    const { out, err, code } = await earshot([...args, '--format', 'json']);
    expect(code).toBe(1);
    expect(err).toMatch(/mine\.checks\.yaml:5:5: "mine, on a bike nobody can read" is left out: .*sag/s);
    const { checks, leftOut } = JSON.parse(out) as { checks: number; leftOut: { check: string }[] };
    expect(checks).toBe(1);
    expect(leftOut.map((l) => l.check)).toEqual(['mine, on a bike nobody can read']);
    const text = await earshot(args);
    expect(text.out).toContain('1 more check was left out');
  });
});
