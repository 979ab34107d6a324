/** `earshot rules learn LOG…`: from logged outcomes to strengths, and a pack of one's own where words should move. */
import { json } from '../../../form/text.ts';
import { args, command, flag, format, text } from '../../takes.ts';
import { count } from '../../values.ts';
import { learn, PACK_WEIGHT } from '../../../evaluation/learn.ts';
import { overridesOf } from '../../../evaluation/learn-pack.ts';
import { learnData, learnText } from '../../../report/rules/learn-text.ts';
import { openWorkspace } from '../../../workspace/workspace.ts';
import { EXIT } from '../../../host/io.ts';
import { checkedOut, sourcesOf, writePack } from '../../../workspace/rules/learned-pack.ts';
import { packFolders } from '../../../workspace/rules/load-rules.ts';
import { loggedCases } from '../../../workspace/cases/logged-cases.ts';

const MOST_ROUNDS = 300;

export const rulesLearn = command({
  about: 'from logged outcomes to strengths: which words of the rules your own cases would move',
  args: { logs: args('case files with results (YAML, JSON, NDJSON), the folder of a log, or -') },
  options: {
    out: text('folder', 'write the moved words as a pack of your own, into a new folder'),
    bike: text('file', 'bike sheet for cases that name none'),
    weight: count('n', "how many cases the pack's own words count for", PACK_WEIGHT),
    full: flag('every strength, also those that stay'),
    format: format('text', 'json'),
  },
  examples: [['earshot rules learn cases.ndjson --out learned', 'what your own cases would change']],
  run: async (options, { io, rules: packs, style }) => {
    // Refused before the work, not after it.
    const out = options.out === undefined ? undefined : checkedOut(options.out, io.cwd);
    const workspace = await openWorkspace(io, packs, options.bike);
    const { model, rules } = workspace;
    const { logged, failed, unreadable } = await loggedCases(workspace, options.logs, options.bike, io);
    const learned = learn(model, logged, {
      weight: options.weight,
      mostRounds: MOST_ROUNDS,
      progress: (round, change) => {
        if (io.stderrIsTty) io.err(`\rround ${round}, still moving by ${change.toFixed(4)} `);
      },
    });
    if (io.stderrIsTty) io.err('\r\u001b[K');
    const overrides = overridesOf(rules, learned, sourcesOf(packFolders(io, packs)));
    await io.out(
      options.format === 'json'
        ? json(learnData(rules, learned, overrides.moved))
        : learnText(rules, learned, overrides.moved, options.full, await style()),
    );
    if (out !== undefined) {
      if (overrides.moved.length === 0) io.err('No word moves, so no pack was written.\n');
      else {
        await writePack(out, rules, learned, overrides, packFolders(io, packs));
        io.err(`Written: ${out.shown}. Try it: earshot --rules ${out.shown} rules check\n`);
      }
    }
    return failed === 0 ? EXIT.done : unreadable ? EXIT.usage : EXIT.some;
  },
});
