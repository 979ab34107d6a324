/** `earshot explain CASE [CAUSE]`: the evidence for and against. */
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import type { Case } from '../../casework/case.ts';
import type { Model } from '../../diagnosis/model.ts';
import { json } from '../../form/text.ts';
import { arg, command, flag, format, maybeArg, text, unless, whom, type Given, type Here } from '../takes.ts';
import { explainReport } from '../../report/explain.ts';
import { plainResult, plainRules } from '../../report/plain-words.ts';
import { caseSensitivityData, caseSensitivityLines } from '../../report/rules/sensitivity-text.ts';
import { didYouMean } from '../../form/suggest.ts';
import { resultKeeper, sensitivityKeeper } from '../../workspace/cases/kept-by-content.ts';
import { openWorkspace } from '../../workspace/workspace.ts';
import { EXIT, Refusal, type ExitCode } from '../../host/io.ts';
import { readRecords } from '../../workspace/cases/records.ts';
import { sayHistory } from '../../workspace/bikes/say-history.ts';

const args = {
  case: arg('a case file, or - for standard input'),
  cause: maybeArg('one cause, e.g. front.rebound.high.too-slow'),
};
const options = {
  format: format('text', 'json'),
  bike: text('file', 'bike sheet for a case that names none'),
  log: unless('leave out what was tested on the bike before'),
  conflict: flag('also the conflict measure of the answers'),
  for: whom('trade words for a mechanic, plain words for a rider'),
};

export const explainCommand = command({
  about: 'why: the evidence for and against each cause',
  args,
  options,
  examples: [
    ['earshot explain case.yaml', 'the evidence for and against the likeliest causes'],
    ['earshot explain case.yaml front.rebound.high.too-slow', 'the same for one cause'],
  ],
  run: explain,
});

async function explain(
  given: Given<typeof args & typeof options>,
  { io, rules: packs, style }: Here,
): Promise<ExitCode> {
  const workspace = await openWorkspace(io, packs, given.bike, given.log);
  const { model, rules } = workspace;
  if (given.cause !== undefined && !model.causeIndex.has(given.cause)) {
    throw new Refusal(
      `There is no cause ${given.cause}. ${didYouMean(given.cause, model.causeIndex.keys()) || 'See earshot rules show causes.'}`,
    );
  }
  let failed = 0;
  let unreadable = false;
  const keep = resultKeeper(io);
  const keepTipping = sensitivityKeeper(io);
  for await (const record of readRecords([given.case], io)) {
    const opened = await workspace.open(record);
    if ('faults' in opened) {
      failed++;
      unreadable ||= record.unreadable === true;
      io.err(`${opened.faults.join('\n')}\n`);
      continue;
    }
    const { kase, bench, history } = opened;
    for (const warning of opened.warnings) io.err(`${warning}\n`);
    sayHistory(history, io);
    const all = rules.causes.length;
    const result = await keep([model, bench, kase, 'explain'], async () => {
      const { consult, toResult } = await import('../../report/result/worked-out.ts');
      return toResult(model, kase, consult(model, bench, kase, { next: true, explain: all, fit: true }), {
        most: all,
        // What was said may tell of a danger.
        ...(kase.said === undefined ? {} : await workspace.said(kase)),
      });
    });
    const wanted =
      given.cause === undefined
        ? result.causes.slice(0, 3)
        : result.causes.filter((c) => c.id === given.cause);
    const bits = given.conflict ? await conflictIn(model, bench, kase) : undefined;
    const plainly = given.format !== 'json' && given.for === 'rider';
    // A rider is not told on which words of the rules it hangs.
    const tipping = plainly
      ? undefined
      : await keepTipping([model, bench, kase], async () => {
          const { caseSensitivity } = await import('../../evaluation/sensitivity.ts');
          return caseSensitivity(model, bench, kase);
        });
    const priors = Object.fromEntries(rules.causes.map((c) => [c.id, c.prior]));
    if (given.format === 'json')
      await io.out(
        json({
          format: 1,
          case: kase.id,
          verdict: result.verdict,
          causes: wanted,
          fit: result.fit,
          ...(bits === undefined ? {} : { conflict: bits }),
          ...(tipping === undefined ? {} : { sensitivity: caseSensitivityData(rules, tipping) }),
        }),
      );
    else {
      const shape = await style();
      const shown = plainly ? plainResult(result, bench.rules) : result;
      const named = new Set(wanted.map((c) => c.id));
      const list = shown.causes.filter((c) => named.has(c.id));
      const worded = plainly ? plainRules(bench.rules) : bench.rules;
      const hanging = tipping === undefined ? [] : caseSensitivityLines(worded, tipping, shape.width);
      await io.out(
        explainReport(worded, shown, list, priors, bits, hanging, {
          style: shape,
          audience: given.for,
        }),
      );
    }
  }
  return failed === 0 ? EXIT.done : unreadable ? EXIT.usage : EXIT.some;
}

/** How much the last answers speak against each other, in bits. */
async function conflictIn(pack: Model, bench: PreparedBike, kase: Case): Promise<number> {
  const [{ modelFor }, { hear }, { conflict }] = await Promise.all([
    import('../../casework/rider.ts'),
    import('../../casework/evidence.ts'),
    import('../../diagnosis/fit.ts'),
  ]);
  const model = modelFor(pack, bench, kase);
  return conflict(model, bench.prior, hear(model, kase.answers, bench.fact).evidence);
}
