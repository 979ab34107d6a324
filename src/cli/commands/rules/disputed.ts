/** `earshot rules check --disputed`: the links on which the heads behind the rules differ most. */
import { json } from '../../../form/text.ts';
import type { Here } from '../../takes.ts';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { disputed, type Estimates } from '../../../evaluation/estimates.ts';
import { strengthsOf } from '../../../evaluation/strengths.ts';
import { disputedText } from '../../../report/rules/disputed-text.ts';
import { EXIT, Refusal, type ExitCode } from '../../../host/io.ts';
import { loadRules, packFolders } from '../../../workspace/rules/load-rules.ts';

export const ESTIMATES = 'estimates.json';

/** @throws Refusal when no pack in use keeps estimates, or the file is none */
export async function rulesDisputed(
  options: { readonly most: number; readonly format: 'text' | 'json' },
  { io, rules, style }: Here,
): Promise<ExitCode> {
  const files = packFolders(io, rules)
    .map(({ folder, shown }) => ({ path: join(folder, ESTIMATES), shown: `${shown}/${ESTIMATES}` }))
    .filter(({ path }) => existsSync(path));
  if (files.length === 0)
    throw new Refusal(
      `No pack in use has ${ESTIMATES}, so nobody wrote down who estimated what. See "Strengths from several people" in rules/README.md.`,
    );
  const estimates: Record<string, Estimates[string]> = {};
  for (const { path, shown } of files) Object.assign(estimates, parse(readFileSync(path, 'utf8'), shown));
  const strengths = strengthsOf(await loadRules(io, rules));
  let list;
  try {
    list = disputed(estimates, strengths);
  } catch (error) {
    if (error instanceof RangeError)
      throw new Refusal(`${files.map((f) => f.shown).join(', ')}: ${error.message}`);
    throw error;
  }
  const shown = list.slice(0, options.most);
  await io.out(
    options.format === 'json'
      ? json({ format: 1, links: list.length, disputed: shown })
      : disputedText(shown, list.length, await style()),
  );
  return EXIT.done;
}

function parse(text: string, shown: string): Estimates {
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch {
    throw new Refusal(`${shown}: this is no JSON. Make it again with tests/bench/pool-estimates.mjs.`);
  }
  const map = (value: unknown): value is Record<string, unknown> =>
    typeof value === 'object' && value !== null && !Array.isArray(value);
  const sound =
    map(data) &&
    Object.values(data).every(
      (signs) =>
        map(signs) &&
        Object.values(signs).every(
          (causes) =>
            map(causes) &&
            Object.values(causes).every(
              (list) => Array.isArray(list) && list.every((p) => typeof p === 'number' && p >= 0 && p <= 100),
            ),
        ),
    );
  if (!sound)
    throw new Refusal(
      `${shown}: it must be {question: {sign: {cause or base: [percent of each head]}}}. Make it again with tests/bench/pool-estimates.mjs.`,
    );
  return data as Estimates;
}
