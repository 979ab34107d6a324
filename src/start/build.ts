/** After the compiler: compiles the built-in pack once, so that no start pays for reading YAML, nor for what follows from the rules. */
import { mkdirSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { physicsOf } from '../advice/physics.ts';
import { workOut } from '../casework/work-out.ts';
import {
  BUILT,
  BUILT_PHYSICS,
  BUILT_RARE,
  BUILT_RULES,
  STAMP,
  type BuiltInStamp,
} from '../workspace/rules/built-in.ts';
import { compilePacks } from '../workspace/rules/compile-packs.ts';
import { BUILT_NUMBERS } from '../workspace/rules/precomputed.ts';
import { BUILT_WORDS, builtWordsText } from '../workspace/rules/kept-words.ts';
import { DEFAULT_KIND } from '../workspace/physics.ts';
import { basePackFolder, digestOf, findPack, isChecks } from '../workspace/rules/rule-files.ts';
import { VERSION, ROOT } from '../host/root.ts';
import { toBytes } from '../diagnosis/fast/precomputed.ts';
import { defaultBike } from '../physics/index.ts';
import { rulesToText } from '../rulebase/compiled-text.ts';
import { problemLine } from '../form/problem.ts';
import { writeForms } from './forms.ts';
import { writeMachine } from './machine.ts';
import { removeStale } from './stale.ts';
import { wordsToText } from '../words/words-text.ts';

const folder = basePackFolder();
const pack = { ...findPack(folder, folder), shown: 'rules/base' };
const digest = digestOf([pack], VERSION);
const { rules, problems } = compilePacks([pack], digest);
if (rules === undefined) {
  process.stderr.write(`${problems.map(problemLine).join('\n')}\nThe built-in rules do not compile.\n`);
  process.exitCode = 1;
} else {
  mkdirSync(BUILT, { recursive: true });
  const { main, rare } = rulesToText(rules);
  writeFileSync(BUILT_RULES, main);
  writeFileSync(BUILT_RARE, rare);
  writeFileSync(BUILT_WORDS, builtWordsText(digest, wordsToText(rules)));
  const physics = physicsOf(defaultBike(DEFAULT_KIND));
  writeFileSync(BUILT_PHYSICS, JSON.stringify(physics));
  writeFileSync(BUILT_NUMBERS, toBytes(digest, workOut(rules, physics)));
  const files = pack.files.filter((file) => !isChecks(file));
  const stamp: BuiltInStamp = {
    digest,
    packName: rules.packs[0]!.name,
    packVersion: rules.packs[0]!.version,
    files: files.map((path) => {
      const { size, mtimeMs } = statSync(join(folder, path));
      return [path, size, mtimeMs];
    }),
    folders: [...new Set(files.map((path) => dirname(path)))].map((path) => [
      path,
      statSync(join(folder, path)).mtimeMs,
    ]),
  };
  writeFileSync(STAMP, JSON.stringify(stamp));
  writeForms();
  await writeMachine();
  removeStale(join(ROOT, 'dist'), join(ROOT, 'src'));
  const { bundle } = await import('./bundle.ts');
  await bundle();
  // By this date kept things are told from those of another build; it is set when all of the program is there.
  const now = new Date();
  utimesSync(BUILT_PHYSICS, now, now);
}
