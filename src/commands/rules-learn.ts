/** `earshot rules learn LOG…`: from logged outcomes to strengths, and a pack of one's own where words should move. */
import { learn, PACK_WEIGHT } from '../evaluation/learn.ts';
import { overridesOf } from '../evaluation/learn-pack.ts';
import { learnData, learnText } from '../report/learn-text.ts';
import type { Style } from '../report/style.ts';
import { openDesk } from './desk.ts';
import { EXIT, type ExitCode, type Io } from './io.ts';
import { checkedOut, sourcesOf, writePack } from './learned-pack.ts';
import { packFolders } from './load-rules.ts';
import { loggedCases } from './logged-cases.ts';

export interface RulesLearnOptions {
  readonly logs: readonly string[];
  readonly rules: readonly string[];
  /** folder of the pack to write; nothing is written without */
  readonly out?: string | undefined;
  readonly bike?: string | undefined;
  /** how many cases the pack's own words count for */
  readonly weight?: number | undefined;
  readonly full: boolean;
  readonly format: 'text' | 'json';
  readonly style: Style;
}

const MOST_ROUNDS = 300;

export async function rulesLearn(options: RulesLearnOptions, io: Io): Promise<ExitCode> {
  // Refused before the work, not after it.
  const out = options.out === undefined ? undefined : checkedOut(options.out, io.cwd);
  const desk = await openDesk(io, options.rules, options.bike);
  const { model, rules } = desk;
  const { logged, failed, unreadable } = await loggedCases(desk, options.logs, options.bike, io);
  const learned = learn(model, logged, {
    weight: options.weight ?? PACK_WEIGHT,
    mostRounds: MOST_ROUNDS,
    progress: (round, change) => {
      if (io.stderrIsTty) io.err(`\rround ${round}, still moving by ${change.toFixed(4)} `);
    },
  });
  if (io.stderrIsTty) io.err('\r\u001b[K');
  const overrides = overridesOf(rules, learned, sourcesOf(packFolders(io, options.rules)));
  await io.out(
    options.format === 'json'
      ? `${JSON.stringify(learnData(rules, learned, overrides.moved), null, 2)}\n`
      : learnText(rules, learned, overrides.moved, options.full, options.style),
  );
  if (out !== undefined) {
    if (overrides.moved.length === 0) io.err('No word moves, so no pack was written.\n');
    else {
      await writePack(out, rules, learned, overrides, packFolders(io, options.rules));
      io.err(`Written: ${out.shown}. Try it: earshot --rules ${out.shown} rules check\n`);
    }
  }
  return failed === 0 ? EXIT.done : unreadable ? EXIT.usage : EXIT.some;
}
