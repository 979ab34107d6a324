import { execFileSync } from 'node:child_process';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { quoted } from '../../src/host/quoted.ts';
import { foldCommand, foldText, paragraph } from '../../src/report/wrap.ts';

const LONG =
  "earshot trial record --bike /home/me/bikes/hazel.yaml --trial front-rebound-low-1 --note 'as it was'";

it('breaks a command between words, with a backslash', () => {
  expect(foldCommand(LONG, 60)).toBe(
    [
      '  earshot trial record --bike /home/me/bikes/hazel.yaml \\',
      "    --trial front-rebound-low-1 --note 'as it was'",
    ].join('\n'),
  );
  expect(foldCommand('earshot next', 60)).toBe('  earshot next');
});

it('puts the command below what is said of it, in messages and in paragraphs', () => {
  const said = `Kept in the log. After each run: ${LONG}`;
  const folded = ['Kept in the log. After each run:', foldCommand(LONG, 60)].join('\n');
  expect(foldText(said, 60)).toBe(folded);
  expect(foldText(`Kept.\n  ${LONG}`, 60)).toBe(`Kept.\n${foldCommand(LONG, 60)}`);
  expect(paragraph(said, 60)).toBe(folded);
  expect(foldText(said, 200)).toBe(said);
});

it('takes a sentence about the program for no command', () => {
  const said =
    'The log is of another bike: earshot does not write the two into one file, whoever asks it to.';
  for (const fold of [foldText, paragraph]) {
    const text = fold(said, 60);
    expect(text).not.toContain('\\');
    expect(text.split('\n')).toHaveLength(2);
    expect(text.replaceAll('\n', ' ')).toBe(said);
  }
});

it('wraps a message behind its own indent, and leaves a path whole that is longer than the line', () => {
  const path = `/${'long/'.repeat(14)}file.yaml`;
  expect(foldText(`  Written to ${path} now, and to no other place than to this.`, 40)).toBe(
    `  Written to\n  ${path}\n  now, and to no other place than to\n  this.`,
  );
});

it('gives a shell the very same words back', () => {
  fc.assert(
    fc.property(
      fc.array(fc.stringMatching(/^[ -~]{1,30}$/), { minLength: 1, maxLength: 8 }),
      fc.integer({ min: 20, max: 80 }),
      (args, width) => {
        const folded = foldCommand(`earshot ${args.map(quoted).join(' ')}`, width);
        const out = execFileSync('sh', ['-c', folded.replace('earshot', String.raw`printf '%s\n'`)], {
          encoding: 'utf8',
        });
        expect(out.split('\n').slice(0, -1)).toEqual(args);
      },
    ),
    { numRuns: 60 },
  );
});
