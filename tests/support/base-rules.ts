/** The base pack, compiled from its files once a worker, and its model, shared: so they are frozen. */
import { prepareBike, type PreparedBike } from '../../src/advice/prepared-bike.ts';
import { buildModel, type Model } from '../../src/diagnosis/model.ts';
import { compilePacks } from '../../src/workspace/rules/compile-packs.ts';
import { basePackFolder, findPack } from '../../src/workspace/rules/rule-files.ts';
import type { CompiledRules } from '../../src/rulebase/compiled.ts';
import type { Check } from '../../src/rulebase/compile-checks.ts';
import { frozen } from '../../src/form/plain-data.ts';
import { problemLine } from '../../src/form/problem.ts';
import type { CompiledWords } from '../../src/words/compiled-words.ts';
import { compileWords } from '../../src/words/words-text.ts';
import { buildMatcher, type Matcher } from '../../src/words/matcher.ts';

interface BasePack {
  readonly rules: CompiledRules;
  readonly checks: readonly Check[];
}
let kept: BasePack | undefined;

export function baseRules(): BasePack {
  return (kept ??= frozen(compile()));
}

let model: Model | undefined;
let twoAtOnce: Model | undefined;
let bare: PreparedBike | undefined;

/** The model of the base pack. */
export function baseModel(): Model {
  return (model ??= Object.freeze(buildModel(baseRules().rules)));
}

/** That of the base pack with at most two causes at once, where much is worked out: it costs half. */
export function modelOfTwo(): Model {
  const { rules } = baseRules();
  const numbers = { ...rules.numbers, 'causes-at-once': 2 };
  return (twoAtOnce ??= Object.freeze(buildModel({ ...rules, numbers })));
}

/** A bike of which nothing is known, under the base pack. */
export function bareBike(): PreparedBike {
  return (bare ??= Object.freeze(prepareBike(baseModel())));
}

let words: CompiledWords | undefined;
let matcher: Matcher | undefined;

/** Its phrases, read once. */
export function baseWords(): CompiledWords {
  return (words ??= compileWords(baseRules().rules));
}

export function baseMatcher(): Matcher {
  return (matcher ??= buildMatcher(baseRules().rules, baseWords()));
}

function compile(): BasePack {
  const folder = basePackFolder();
  const { rules, checks, problems } = compilePacks(
    [{ ...findPack(folder, folder), shown: 'rules/base' }],
    'test',
  );
  if (rules === undefined) throw new Error(problems.map(problemLine).join('\n'));
  return { rules, checks };
}
