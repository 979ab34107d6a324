import type { Case } from '../../src/casework/case.ts';
import { printDeed, readDeed } from '../../src/bike/deed.ts';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
  symlinkSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { basePackFolder, digestOf, findPack } from '../../src/workspace/rules/rule-files.ts';
import { compilePacks } from '../../src/workspace/rules/compile-packs.ts';
import { seeded } from '../../src/evaluation/riders.ts';
import { strengthsOf } from '../../src/evaluation/strengths.ts';
import { openLog } from '../../src/logbook/log.ts';
import { madeLogs, withValues } from '../evaluation/made-logs.ts';
import { bareBike, baseRules } from '../support/base-rules.ts';
import { earshot } from '../support/io.ts';

const FAR = 'deep-travel wall usually';
let folder = '';
let many = '';
let few = '';

const line = ({ kase }: { kase: Case }): string =>
  JSON.stringify({
    case: 1,
    id: kase.id,
    answers: Object.fromEntries(kase.answers.map((a) => [a.question, a.answer])),
    results: kase.results.map((one) => ({ ...one, change: printDeed(one.change) })),
  });

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'learn-'));
  many = join(folder, 'many.ndjson');
  few = join(folder, 'few.ndjson');
  const { rules } = baseRules();
  if (!strengthsOf(rules).some((s) => s.id === FAR)) throw new Error(`${FAR} is no strength`);
  // Few questions, so that learning takes a second.
  const truth = withValues(rules, new Map([[FAR, 0.6]]));
  const asked = new Set(['sag@front', 'sag@rear', 'deep-travel@front', 'deep-travel@rear']);
  const bench = bareBike();
  const logs = madeLogs(truth, { bench }, 40, seeded(0.3), 1).map(({ kase }) => ({
    kase: {
      ...kase,
      answers: kase.answers.filter((a) => asked.has(a.question)),
    },
  }));
  writeFileSync(many, `${logs.map(line).join('\n')}\n`);
  writeFileSync(few, `${logs.slice(0, 5).map(line).join('\n')}\n`);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const stateOfBase = (): string => digestOf([findPack(basePackFolder(), '/')], '');

describe('rules learn --out', () => {
  it('writes a pack of its own that compiles over the built-in one and moves the word; nothing else changes', async () => {
    const before = stateOfBase();
    const out = join(folder, 'Our shed');
    const ran = await earshot(['rules', 'learn', many, '--out', out, '--format', 'json']);
    expect(ran.err).toContain('Written');
    expect(ran.code).toBe(0);
    const base = findPack(basePackFolder(), '/');
    const packs = [base, findPack(out, '/')];
    const { rules, problems } = compilePacks(packs, 'test');
    expect(problems).toEqual([]);
    const said = JSON.parse(ran.out) as {
      strengths: { rule: string; moves: { from: string; to: string } | null }[];
    };
    const moved = said.strengths.filter((s) => s.moves !== null);
    expect(moved.map((s) => s.rule)).toEqual(['deep-travel wall, with nothing off']);
    const now = strengthsOf(rules!);
    for (const old of strengthsOf(baseRules().rules)) {
      const value = now.find((s) => s.id === old.id)!.value;
      if (old.id === FAR) expect(value).toBe(rules!.scale[moved[0]!.moves!.to]);
      else expect(value).toBe(old.value);
    }
    expect(readFileSync(join(out, 'learned.yaml'), 'utf8')).toMatch(/wall: .* # was very rarely; \d+ % /);
    expect(stateOfBase()).toBe(before);
    // What was written once is never written over.
    const again = await earshot(['rules', 'learn', few, '--out', out]);
    expect(again.code).toBe(2);
    expect(again.err).toContain('not empty');
  });

  it('writes nothing for five cases', async () => {
    const out = join(folder, 'five');
    const ran = await earshot(['rules', 'learn', few, '--out', out]);
    expect(ran.out).toContain('No word moves.');
    expect(existsSync(out)).toBe(false);
    expect(ran.code).toBe(0);
  });

  it('refuses the built-in pack, any folder in it, and a link to it', async () => {
    const link = join(folder, 'link');
    symlinkSync(basePackFolder(), link);
    for (const out of [basePackFolder(), join(basePackFolder(), 'mine'), join(link, 'mine')]) {
      const ran = await earshot(['rules', 'learn', few, '--out', out]);
      expect(ran.code).toBe(2);
      expect(ran.err).toContain('built-in pack');
    }
    expect(readdirSync(basePackFolder())).not.toContain('mine');
  });

  it('refuses a folder that holds anything, hidden files too', async () => {
    const out = join(folder, 'full');
    mkdirSync(out);
    writeFileSync(join(out, '.note'), 'mine');
    const ran = await earshot(['rules', 'learn', few, '--out', out]);
    expect([ran.code, readdirSync(out)]).toEqual([2, ['.note']]);
  });
});

describe('rules learn LOG', () => {
  it('goes on after a record it cannot use, and says so', async () => {
    const broken = join(folder, 'broken.ndjson');
    writeFileSync(broken, `${readFileSync(few, 'utf8')}{"case":1,"answers":{"no-such":"x"}}\n`);
    const ran = await earshot(['rules', 'learn', broken]);
    expect(ran.code).toBe(1);
    expect(ran.err).toContain('broken.ndjson:6');
    expect(ran.out).toContain('5 cases, 5 with a ridden change');
  });

  it('takes the trials of a log with the answers of the interview before them', async () => {
    const home = join(folder, 'home');
    const log = await openLog(home, 'hazel', { now: () => new Date('2026-05-04T10:20:30Z') });
    await log.saveCase('first', { case: 1, id: 'first', answers: { 'deep-travel@front': 'wall' } });
    await log.append({
      kind: 'result',
      case: 'first',
      trial: 't1',
      result: {
        change: readDeed('front.spring+5psi'),
        setting: 'front.spring',
        outcome: 'better',
        kept: true,
      },
    });
    for (const at of [home, join(home, 'bikes', 'hazel')]) {
      const ran = await earshot(['rules', 'learn', at, '--format', 'json']);
      expect(ran.err).toBe('');
      const { cases, strengths } = JSON.parse(ran.out) as {
        cases: number;
        strengths: { rule: string; cases: number }[];
      };
      expect(cases).toBe(1);
      expect(strengths.find((s) => s.rule === 'deep-travel wall, with nothing off')!.cases).toBe(1);
    }
  });

  it('refuses a folder with neither a case nor a log', async () => {
    const empty = join(folder, 'empty');
    mkdirSync(empty);
    const ran = await earshot(['rules', 'learn', empty]);
    expect(ran.code).toBe(2);
    expect(ran.err).toContain('no case and no log');
  });
});

describe('rules check --sensitivity', () => {
  it('lists the words that checks hang on', async () => {
    const ran = await earshot(['rules', 'check', '--sensitivity', '--only', 'pump', '--format', 'json']);
    expect(ran.code).toBe(0);
    const { checks, rules } = JSON.parse(ran.out) as {
      checks: number;
      rules: { flips: number; checks: number }[];
    };
    expect(checks).toBeGreaterThan(0);
    for (const r of rules) expect(r.flips).toBeLessThanOrEqual(r.checks);
  });
});
