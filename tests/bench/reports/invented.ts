/**
 * Reports that blind writers invented, read by the program from the answers that a second blind reader made of them and
 * held against what two engineers made of the words alone. The strengths of the rules were moved toward these engineers
 * once, so they say whether the rules still agree, not how well new riders are read.
 */
import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { programOf } from '../../published/field-cases/program.ts';
import { namesOfCauses, score, type Score, type Written } from '../../published/field-cases/score.ts';
import type { CompiledRules } from '../../../src/rulebase/compiled.ts';

interface Invented extends Written {
  readonly meant: readonly string[];
  readonly read: readonly Readonly<Record<string, number>>[];
}

/**
 * The strengths were moved toward the reports of the first three; the others were written afterwards, and no strength was
 * moved toward them. Four numbers of `tried` were chosen with the notes of `t` and `u`, and words were widened with `t`.
 */
export const USED: readonly string[] = ['p', 'q', 'r'];
export const UNUSED: readonly string[] = ['s', 't', 'u'];
/** Help as the trade prints it. The even ones were looked at while links were set, the odd ones never. */
export const GUIDES: readonly string[] = ['v', 'w'];
export const isOdd = (id: string): boolean => Number(/\d+$/.exec(id)) % 2 === 1;
/** A cause counts as right when the pooled chance of it is at least this share of the best one's. */
const NEARLY = 0.7;

/** What the writer meant and what the engineers read, each with the weight of one voice. */
function agreed({ meant, read }: Invented): string[] {
  const pooled = new Map<string, number>();
  const add = (cause: string, weight: number) => pooled.set(cause, (pooled.get(cause) ?? 0) + weight);
  for (const cause of meant) add(cause, 1 / meant.length);
  for (const causes of read) for (const [cause, chance] of Object.entries(causes)) add(cause, chance);
  const best = Math.max(...pooled.values());
  return [...pooled].filter(([, weight]) => weight >= NEARLY * best).map(([cause]) => cause);
}

export function readInvented(rules: CompiledRules, writers = USED): Score[] {
  const program = programOf(rules);
  const names = namesOfCauses();
  return writers
    .flatMap((writer) => parse(readFileSync(`tests/bench/reports/${writer}.yaml`, 'utf8')) as Invented[])
    .map((report) =>
      score(
        {
          id: report.id,
          tier: 'extra',
          source_key: report.id,
          told: [],
          answer: { acceptable: agreed(report).map((cause) => ({ cause })), tolerated: [], wrong: [] },
        },
        program({
          id: report.id,
          answers: report.answers ?? {},
          ...(report.tried === undefined ? {} : { tried: report.tried }),
        }).map((c) => names.get(c.id) ?? []),
      ),
    );
}
