/** Ids are looked up in the same breath as mistakes of form, and nothing is told that only follows from those. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { compilePacks } from '../../src/workspace/rules/compile-packs.ts';
import { basePackFolder, findPack } from '../../src/workspace/rules/rule-files.ts';

const question = (id: string, more: string, points = 'rear.spring.too-soft'): string => `
  - id: ${id}
    ask: Say.
    plain: Say.
    help: Look.
    how: recall
    minutes: 0.3
    topic: ${id}
    answers: { fine: fine, off: off }
    default: fine
    when-several: any
    usually: { off: rarely }
    confusable-with: [{ id: 'sag@front', tell: that reads the ring }]
    points-to: { off: { ${points}: usually } }${more === '' ? '' : `\n    ${more}`}`;

/** What the base pack with this file laid over it has against it: place, code and message. */
function problemsOf(text: string, header = 'pack: own\nversion: 1.0.0\nabout: Own.\n'): string[] {
  const folder = mkdtempSync(join(tmpdir(), 'earshot-sound-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  writeFileSync(join(folder, 'pack.yaml'), header);
  writeFileSync(join(folder, 'own.yaml'), `questions:${text}\n`);
  const packs = [findPack(basePackFolder(), '/'), findPack(folder, '/')];
  const { rules, problems } = compilePacks(packs, 'test');
  expect(rules).toBeUndefined();
  return problems.map(({ line, code, message }) => `${line} ${code}: ${message}`);
}

it('tells an unknown id beside a mistake of form, in another entry and in the same one', () => {
  const told = problemsOf(
    question('one', '', 'rear.spring.too-sofd') +
      question('two', '').replace('how: recall', 'how: recal') +
      question('three', '', 'rear.spring.to-soft').replace('    default: fine\n', ''),
  );
  expect(told).toEqual([
    '14 unknown-id: No cause rear.spring.too-sofd.',
    expect.stringMatching(/^19 shape: questions › two › how: found "recal"/),
    expect.stringMatching(/^28 shape: questions › three: default is missing/),
    '39 unknown-id: No cause rear.spring.to-soft.',
  ]);
});

it('takes an entry that nothing is left of for one that is there, and tells nothing of what only follows', () => {
  const told = problemsOf(
    `\n  - id: gone\n    ask: Say.\n    answers: 3${question('one', 'only-if: { gone: off }')}${question('two', 'only-if: { gnoe: off }')}`,
  );
  expect(told.filter((one) => !one.includes('shape'))).toEqual([
    expect.stringContaining('The gate asks for gnoe, which is no question.'),
  ]);
});

it('looks up nothing where a whole file, or the head of a pack, cannot be read', () => {
  const wrong = question('one', '', 'rear.spring.too-sofd');
  expect(problemsOf(wrong, 'pack: own\n').every((one) => one.includes('shape'))).toBe(true);
  expect(problemsOf(`${wrong}\n  : [`).some((one) => one.includes('unknown-id'))).toBe(false);
});

it('takes no id that every object has: an answer of that name would be found among the dangerous ones', () => {
  expect(problemsOf(question('constructor', ''))[0]).toContain('choose another');
  expect(problemsOf(question('one', '').replaceAll('off:', 'constructor:'))[0]).toContain('choose another');
});

it('finds no section, and no word of the scale, in what every object has', () => {
  const wrong = question('one', '').replace('rarely', 'constructor');
  expect(problemsOf(`${wrong}\nconstructor: [a]`)[0]).toContain('constructor is not known here');
  expect(problemsOf(wrong)).toEqual([expect.stringContaining('constructor is not a word of the scale')]);
});
