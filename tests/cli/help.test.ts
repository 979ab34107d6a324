import { describe, expect, it } from 'vitest';
import { makeProgram } from '../../src/cli/program.ts';
import { COMMANDS } from '../../src/cli/commands.ts';
import type { Here } from '../../src/cli/takes.ts';
import { completionTree } from '../../src/cli/tree.ts';
import { placed, type Placed } from '../../src/report/completion/completion.ts';
import { earshot } from '../support/io.ts';

const program = await makeProgram({ io: { width: 80 } } as Here);
const all = placed(completionTree(program)).filter(({ path }) => path !== 'help');
const EXAMPLES = Object.fromEntries(
  await Promise.all(
    Object.entries(COMMANDS).map(async ([path, load]) => [path, (await load()).examples] as const),
  ),
);
const at = (path: string): Placed | undefined => all.find((one) => one.path === path);
const leaves = all.filter(({ command }) => command.commands.length === 0).map(({ path }) => path);

/** The words of a command line, with quotes taken off. */
const wordsOf = (line: string): string[] =>
  (line.match(/"[^"]*"|[^\s"]+/g) ?? []).map((word) => word.replaceAll('"', ''));

describe('help', () => {
  it('says of every command, argument and option what it is', () => {
    const silent = (command: typeof program): string[] => [
      ...(command.description() === '' ? [command.name()] : []),
      ...command.options.filter((o) => o.description === '').map((o) => `${command.name()} ${o.flags}`),
      ...command.registeredArguments
        .filter((a) => a.description === '')
        .map((a) => `${command.name()} ${a.name()}`),
      ...command.commands.flatMap((sub) => silent(sub as typeof program)),
    ];
    expect(silent(program)).toEqual([]);
  });
  it.each(leaves)('shows examples for: earshot %s', async (path) => {
    const { code, out, err } = await earshot([...path.split(' '), '--help']);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(EXAMPLES[path], 'no example for this command').toBeDefined();
    for (const [line] of EXAMPLES[path]!) expect(out).toContain(line);
    expect(out).toContain('--rules <folder>');
    expect(out).not.toMatch(/default: (false|\[\])/);
  });
  it('has examples of known commands only, with options and choices they have', () => {
    const wrong: string[] = [];
    for (const [path, examples] of Object.entries(EXAMPLES))
      for (const [line] of examples) {
        const words = wordsOf(/earshot ([^|>)<]*)/.exec(line)?.[1] ?? '');
        const place = words.findIndex((_, n) => at(words.slice(0, n + 1).join(' ')) === undefined);
        const command = at(words.slice(0, place < 0 ? words.length : place).join(' '));
        // `earshot log` is its default command.
        const options = [...(command?.command.options ?? []), ...(at(path)?.command.options ?? [])];
        for (const [n, word] of words.entries()) {
          if (!word.startsWith('--')) continue;
          const option = options.find(({ names }) => names.includes(word));
          if (option === undefined) wrong.push(`${line}: ${word}`);
          const takes = option?.takes;
          if (takes?.kind === 'choice' && !takes.choices.includes(words[n + 1] ?? ''))
            wrong.push(`${line}: ${word} ${words[n + 1]}`);
        }
      }
    expect(wrong).toEqual([]);
  });
  it('keeps to 80 columns, but for command lines to copy', async () => {
    for (const path of ['', ...all.map((one) => one.path)]) {
      const { out } = await earshot([...path.split(' ').filter(Boolean), '--help']);
      const wide = out.split('\n').filter((line) => line.length > 80 && !/^ {2}(earshot|source)/.test(line));
      expect(wide).toEqual([]);
    }
  });
});

it.each([
  ['--no-color', false],
  ['--color=never', false],
  ['--color=always', true],
])('colours as it is told behind any command: %s', async (flag, coloured) => {
  const { out } = await earshot(['rules', 'show', 'hit-pattern', flag], { tty: true });
  expect(out.includes('\u001b[')).toBe(coloured);
});

describe('a command called wrongly', () => {
  it.each([
    [['bike', 'show', '--bkie', 'b.yaml'], '(earshot bike show --help lists its options)'],
    [['rules', 'chek'], '(earshot rules --help lists the commands)'],
    [['nonsense'], '(earshot --help lists the commands)'],
  ])('%j points at its help', async (argv, hint) => {
    const { code, err } = await earshot(argv);
    expect(code).toBe(2);
    expect(err).toContain(hint);
  });
});

describe('a terminal that shows no more than ASCII', () => {
  const plain = { tty: true, env: { LANG: 'C' } };
  const wide = /[^\x00-\x7F]/;
  it('gets errors in ASCII', async () => {
    const stdin = '{"case":1,"id":"x","answers":{"sag@front":{"answer":"target","shure":"guess"}}}';
    const line = ['diagnose', '-'] as const;
    expect((await earshot(line, { stdin })).err).toMatch(wide);
    const { code, err } = await earshot(line, { stdin, ...plain });
    expect(code).toBe(1);
    expect(err).toMatch(/sag@front/);
    expect(err).not.toMatch(wide);
  });
  it('gets help in ASCII', async () => {
    expect((await earshot(['predict', '--help'])).out).toContain('before → after');
    expect((await earshot(['predict', '--help'], plain)).out).toContain('before -> after');
  });
});
