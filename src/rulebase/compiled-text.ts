/** The compiled rules as text, in two pieces: what every case needs, and what is read only when it is asked for. */
import type { CompiledRules } from './compiled.ts';

/** Rider's words and the like: a third of all, and most cases need none of it. */
const RARE = ['words', 'concepts', 'glossary'] as const satisfies readonly (keyof CompiledRules)[];
type Rare = (typeof RARE)[number];

export interface RulesText {
  readonly main: string;
  readonly rare: string;
}

export function rulesToText(rules: CompiledRules): RulesText {
  const main: Record<string, unknown> = { ...rules };
  const rare: Record<string, unknown> = {};
  for (const key of RARE) {
    rare[key] = main[key];
    delete main[key];
  }
  return { main: JSON.stringify(main), rare: JSON.stringify(rare) };
}

/**
 * @param rare reads the second piece, once, when something of it is asked for
 * @throws SyntaxError where the first is no JSON; whatever asks for something of the second, where that is none
 */
export function rulesFromText(main: string, rare: () => string): CompiledRules {
  const rules = JSON.parse(main) as Omit<CompiledRules, Rare>;
  let read: Pick<CompiledRules, Rare> | undefined;
  const rest = (): Pick<CompiledRules, Rare> => (read ??= JSON.parse(rare()) as Pick<CompiledRules, Rare>);
  for (const key of RARE) Object.defineProperty(rules, key, { enumerable: true, get: () => rest()[key] });
  return rules as CompiledRules;
}
