/** Compiles rule packs from texts, so that a test shows the rules it is about. */
import { compile, type Compilation } from '../../src/rulebase/compile.ts';
import type { PackSource } from '../../src/rulebase/pack-layers.ts';
import type { CompiledRules } from '../../src/rulebase/compiled.ts';
import { parseYaml } from '../../src/form/parse.ts';
import type { Problem } from '../../src/form/problem.ts';
import { packFile } from '../../src/rulebase/schema/pack.ts';
import { ruleFile } from '../../src/rulebase/schema/rule-file.ts';
import { validate } from '../../src/form/checked.ts';

/** Numbers and a word scale that every test pack can start from. */
export const PACK = `
pack: test
version: 1.0.0
about: rules of a test
word-scale:
  source: from-memory
  percent: {always: 99.7, usually: 75, often: 72.5, sometimes: 25, rarely: 7.2, never: 0.3}
numbers:
  causes-at-once: 3
  expected-causes: 1
  trust: {recall: 0.1, ride: 0.1, stand: 0.01}
  slip: {recall: 0, ride: 0, stand: 0}
  one-story: {recall: 0.9, ride: 0.9, stand: 0}
  sure: {sure: 1, fairly: 0.75, guess: 0.4}
  asking: {minutes-floor: 0.3, topic-bonus: 1.2, enough: 0.25, least-bits: 0.05, keep-asking-bits: 0.02, most-questions: 20, nothing-off: 0.6}
  fit: {strange: 1.3}
  advice: {trial-cost: 0.1, minute-cost: 0.004, upset-when-right: 0.25, repair-first: 0.3, low-on-high: 0.5, high-on-low: 0.15}
  sheet:
    clicks: {right: [0, 2], low: [-4, 2.5], high: [4, 2.5], most-db: 10}
    sag: {right: [0, 2], low: [-7, 3], high: [7, 3], most-db: 10}
    tyre: {right: [0, 4], low: [-15, 6], high: [15, 6], most-db: 10}
  results:
    helped: {better: 0.8, same: 0.15, worse: 0.05}
    nothing: {better: 0.15, same: 0.65, worse: 0.2}
    harmed: {better: 0.05, same: 0.25, worse: 0.7}
    one-step: 0.7
  trial:
    points: {helped: [1, 0.5], nothing: [0, 0.15], harmed: [-1, 0.5]}
    misled: 0.05
    open: [0.4, 0.4]
    unadvised: {helps: 0.5, harms: 0.1}
    most-helps: 0.8
reasons: {at-limit: 'it is at {limit}', range-left: 'only this much range is left before {limit}'}
feelings:
  - {id: overall, ask: The run as a whole, low: bad, high: good}
  - {id: grip, ask: Grip, low: none, high: all}
`;

/** @param packs a pack each: file name → text; a pack without pack.yaml gets the one above */
export function compileTexts(...packs: readonly Readonly<Record<string, string>>[]): Compilation {
  const problems: Problem[] = [];
  const sources = packs.flatMap((texts, n): PackSource[] => {
    const packParsed = parseYaml(
      texts['pack.yaml'] ?? PACK.replace('pack: test', `pack: test${n || ''}`),
      'pack.yaml',
    );
    const header = validate(packParsed, packFile);
    problems.push(...header.problems);
    const files = Object.entries(texts)
      .filter(([name]) => name !== 'pack.yaml')
      .flatMap(([name, text]) => {
        const parsed = parseYaml(text, name);
        const { value, problems: found } = validate(parsed, ruleFile);
        problems.push(...found);
        return value === undefined ? [] : [{ pack: header.value?.pack ?? 'test', parsed, rules: value }];
      });
    return header.value === undefined ? [] : [{ pack: header.value, packParsed, files }];
  });
  if (problems.length > 0) return { checks: [], problems };
  return compile(sources, 'test');
}

export function rulesOf(...packs: readonly Readonly<Record<string, string>>[]): CompiledRules {
  const { rules, problems } = compileTexts(...packs);
  if (rules === undefined)
    throw new Error(problems.map((p) => `${p.file}:${p.line}:${p.col} ${p.message}`).join('\n'));
  return rules;
}
