/** What no honest file holds is refused with a word, before it is worked out; the rest of a batch goes on. */
import { describe, expect, it } from 'vitest';
import { diagnose } from '../../src/cli/commands/diagnose.ts';
import { limitedLines } from '../../src/disk/lines.ts';
import { readBatches } from '../../src/workspace/cases/records.ts';
import type { CaseRecord } from '../../src/workspace/cases/case-texts.ts';
import { MOST_RESULTS, MOST_ROUNDS, tooMuch } from '../../src/casework/reading/too-much.ts';
import { PLAIN } from '../../src/report/style.ts';
import type { Io } from '../../src/host/io.ts';
import { earshot } from '../support/io.ts';

const RESULT = { change: 'front.rebound.low+2', outcome: 'same' };
const many = <T>(count: number, one: T): T[] => Array.from({ length: count }, () => one);
const answers = (count: number) =>
  Object.fromEntries(many(count, 0).map((_, i) => [`hit-patterm${i}`, 'row']));

describe('a record with too much in it', () => {
  it.each([
    ['results', { results: many(MOST_RESULTS + 1, RESULT) }],
    ['results', { results: many(30, RESULT), earlier: many(4, { results: many(10, RESULT) }) }],
    ['earlier rounds', { earlier: many(MOST_ROUNDS + 1, {}) }],
    ['answers', { answers: answers(1001), earlier: [{ answers: answers(1000) }] }],
    ['things tried', { tried: many(1001, {}) }],
    ['topics', { interview: { about: many(1001, 'x') } }],
    ['keys', answers(101)],
  ])('is refused for its %s', (what, raw) => {
    expect(tooMuch(raw).map(({ message }) => message)).toEqual([expect.stringContaining(` ${what};`)]);
  });
  it('is not one that is only long', () => {
    const raw = {
      results: many(MOST_RESULTS, RESULT),
      earlier: many(MOST_ROUNDS, {}),
      answers: answers(2000),
    };
    expect(tooMuch(raw)).toEqual([]);
  });
  it('stops neither the records before it nor those behind it', async () => {
    const lines = [
      { case: 1, id: 'a', answers: {} },
      { case: 1, id: 'b', answers: {}, results: many(1000, RESULT) },
      { case: 1, id: 'c', answers: answers(2000) },
      { case: 1, id: 'd', answers: {} },
    ];
    const stdin = lines.map((one) => JSON.stringify(one)).join('\n');
    const { code, out, err } = await earshot(['diagnose', '-', '--format', 'ndjson'], { stdin });
    expect(code).toBe(1);
    expect(
      out
        .trim()
        .split('\n')
        .map((line) => JSON.parse(line).case),
    ).toEqual(['a', 'd']);
    expect(err).toContain('1000 results');
    expect(err).toContain('more problems are not listed');
    expect(err.split('\n').filter((line) => line.includes('Did you mean')).length).toBeLessThan(50);
  });
});

describe('lines that say nothing', () => {
  const io = (stdin: AsyncIterable<Uint8Array>): Io => ({ stdin, cwd: '/' }) as Io;
  const records = async (chunks: readonly string[]): Promise<CaseRecord[]> => {
    const found: CaseRecord[] = [];
    const stdin = (async function* () {
      for (const chunk of chunks) yield new TextEncoder().encode(chunk);
    })();
    for await (const batch of readBatches(['-'], io(stdin)))
      if ('records' in batch) found.push(...batch.records);
      else found.push({ name: `${batch.file}:${batch.first}`, folder: batch.folder, data: batch.lines });
    return found;
  };
  it('before records are only counted, so that places stay true', async () => {
    expect(await records([...many(5, '\n\n# remark\n'), '{"case":1}\n'])).toMatchObject([
      { name: 'stdin:16', data: ['{"case":1}'] },
    ]);
  });
  it('before a text keep its places true too', async () => {
    const [one] = await records(['\n\n', '\ncase: 1\nid: [\n']);
    expect(one!.fault).toMatch(/^stdin:[56]:/);
  });
  it('without end are refused', async () => {
    const blank = '\n'.repeat(500_000);
    expect(await records([...many(5, blank), 'case: 1\n'])).toMatchObject([
      { fault: expect.stringContaining('there is no case in its first 2000000 letters') },
    ]);
    expect(await records(['case: 1\n', ...many(5, blank)])).toMatchObject([
      { fault: expect.stringContaining('Send one case a line as JSON') },
    ]);
  });
  it('lose no line, whatever the pieces they come in', async () => {
    const source = (async function* () {
      for (const piece of ['\n', 'a', 'b\n\n', '\uFEFFc\n']) yield new TextEncoder().encode(piece);
    })();
    const lines: unknown[] = [];
    for await (const some of limitedLines(source, 100)) lines.push(...some);
    expect(lines).toEqual(['', 'ab', '', 'c']);
  });
});

describe('an interrupt', () => {
  it('ends a batch behind the record it is at: what was told stays, the count is said, the code is 130', async () => {
    let interrupt: () => void = () => undefined;
    let out = '';
    let err = '';
    const line = (id: string): Uint8Array =>
      new TextEncoder().encode(`${JSON.stringify({ case: 1, id, answers: {} })}\n`);
    const stdin = (async function* () {
      yield line('a');
      yield line('b');
      interrupt();
      // A sender that goes on for ever.
      await new Promise(() => undefined);
    })();
    const code = await diagnose(
      {
        files: ['-'],
        rules: [],
        format: 'json',
        full: false,
        next: false,
        explain: false,
        for: 'mechanic',
        log: true,
        jobs: 1,
        style: PLAIN,
      },
      {
        out: (text) => void (out += text),
        err: (text) => void (err += text),
        stdin,
        cwd: process.cwd(),
        env: { EARSHOT_HOME: process.env['EARSHOT_TESTS_HOME']! },
        stdinIsTty: false,
        stdoutIsTty: false,
        stderrIsTty: false,
        width: 80,
        now: () => new Date(),
        interrupted: () => new Promise((resolve) => (interrupt = () => resolve('interrupted'))),
      },
    );
    expect(code).toBe(130);
    expect(err).toContain('Interrupted: 2 cases were read and told');
    expect(JSON.parse(out).map((one: { case: string }) => one.case)).toEqual(['a', 'b']);
  });
});
