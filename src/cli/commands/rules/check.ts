/** `earshot rules check` and `rules test`: the schema, the lints and every check, all findings at once. */
import { json } from '../../../form/text.ts';
import { command, flag, format, text, type Given, type Here } from '../../takes.ts';
import { count } from '../../values.ts';
import { prepareBike, type PreparedBike } from '../../../advice/prepared-bike.ts';
import { runCheck, saidIn } from '../../../casework/check-rules.ts';
import { answerProbabilities } from '../../../diagnosis/answer-model.ts';
import { buildModel, type Model } from '../../../diagnosis/model.ts';
import type { CompiledRules } from '../../../rulebase/compiled.ts';
import type { Check } from '../../../rulebase/compile-checks.ts';
import { lint, placeOf } from '../../../rulebase/lint.ts';
import { didYouMean } from '../../../form/suggest.ts';
import { phraseProblems } from '../../../words/phrase-problems.ts';
import { printableLines } from '../../../report/foreign-text.ts';
import { problemLine, sortProblems, type Problem } from '../../../form/problem.ts';
import { compilePacks } from '../../../workspace/rules/compile-packs.ts';
import { EXIT, Refusal, type ExitCode } from '../../../host/io.ts';
import { packFolders } from '../../../workspace/rules/load-rules.ts';
import { defaultPhysics, sheetPhysics } from '../../../workspace/physics.ts';
import { fromData } from '../../../workspace/bikes/load-sheet.ts';
import { digestOf } from '../../../workspace/rules/rule-files.ts';
import { VERSION } from '../../../host/root.ts';

/** What `rules test` takes too. */
export const checkOptions = {
  only: text('text', 'only checks whose name or place matches'),
  format: format('text', 'json'),
};

export const rulesCheck = command({
  about: 'schema, lints and every check, all findings at once',
  options: {
    ...checkOptions,
    sensitivity: flag('instead: the words on which most checks hang, each moved by one (about a minute)'),
    disputed: flag('instead: the links on which the people behind the rules differ most'),
    most: count('count', 'with --disputed: how many to list', 20),
  },
  examples: [
    ['earshot rules check', 'the built-in rules'],
    ['earshot rules check --rules my-pack', 'with a pack of your own over them'],
  ],
  run: async ({ sensitivity, disputed, ...given }, here) => {
    if (disputed) return (await import('./disputed.ts')).rulesDisputed(given, here);
    if (sensitivity) return (await import('./sensitivity.ts')).rulesSensitivity(given, here);
    return checked(given, true, here);
  },
});

/** @param lints run the lints too */
export async function checked(
  given: Given<typeof checkOptions>,
  lints: boolean,
  { io, rules: named }: Here,
): Promise<ExitCode> {
  const packs = packFolders(io, named);
  const { rules, checks, problems } = compilePacks(packs, digestOf(packs, VERSION));
  const found: Problem[] = [...problems];
  let passed = 0;
  let run = 0;
  if (rules !== undefined) {
    const model = buildModel(rules);
    if (lints) {
      found.push(
        ...lint(rules, checks, (q, cause) =>
          answerProbabilities(q, cause < 0 ? [] : [cause], new Float64Array(q.answers.length)),
        ),
        ...phraseProblems(rules),
        ...(await physicsProblems(rules)),
      );
    }
    const only = given.only === undefined ? undefined : pattern(given.only);
    const benches = await benchMaker(model);
    for (const check of checks.filter((c) => only === undefined || only.test(c.name) || only.test(c.at))) {
      run++;
      const faults = await faultsOf(model, benches, check);
      if (faults.length === 0) passed++;
      for (const fault of faults) {
        found.push({ ...check.place, code: 'check-failed', severity: 'error', ...fault });
      }
    }
    if (run === 0)
      found.push({
        file: packs.map((p) => p.shown).join(', '),
        line: 0,
        col: 0,
        code: 'no-rules',
        severity: 'error',
        message: 'No check was run.',
        remedy:
          given.only === undefined
            ? 'Add checks in a .checks.yaml file.'
            : 'No name or place matches --only.',
      });
  }
  const sorted = sortProblems(found);
  const errors = sorted.filter((p) => p.severity === 'error').length;
  const summary = {
    questions: rules?.questions.filter((q) => q.either === undefined).length ?? 0,
    causes: rules?.causes.length ?? 0,
    adjustments: rules?.adjustments.length ?? 0,
    checks: run,
    passed,
    errors,
    warnings: sorted.filter((p) => p.severity === 'warning').length,
  };
  if (given.format === 'json') await io.out(json({ format: 1, ...summary, problems: sorted }));
  else {
    for (const p of sorted) await io.out(`${printableLines(problemLine(p))}\n`);
    await io.out(
      rules === undefined
        ? `The rules do not compile: ${errors} to fix.\n`
        : `${summary.questions} questions, ${summary.causes} causes, ${summary.adjustments} adjustments\n${run} checks, ${passed} passed; ${counted(errors, 'error')}, ${counted(summary.warnings, 'warning')}.\n`,
    );
  }
  return errors === 0 ? EXIT.done : EXIT.some;
}

/** Rules whose scenario or metric the model does not have; only the model knows its own names. */
async function physicsProblems(rules: CompiledRules): Promise<Problem[]> {
  const [{ SCENARIOS }, { metricsOf }] = await Promise.all([
    import('../../../physics/ride/scenarios.ts'),
    import('../../../physics/metrics/measure.ts'),
  ]);
  return rules.questions.flatMap(({ id, at, physics }): Problem[] => {
    if (physics === undefined) return [];
    const place = placeOf(at);
    const wrong = (message: string, remedy: string): Problem[] => [
      { ...place, code: 'physics', severity: 'error', message, remedy },
    ];
    const scenario = SCENARIOS.find((s) => s.id === physics.scenario);
    const names = SCENARIOS.map((s) => s.id);
    if (scenario === undefined)
      return wrong(
        `${id}: the model has no scenario ${physics.scenario}.`,
        didYouMean(physics.scenario, names) || `Scenarios: ${names.join(', ')}.`,
      );
    const metrics = metricsOf(scenario.id).map((m) => m.id);
    return metrics.includes(physics.metric)
      ? []
      : wrong(
          `${id}: ${physics.scenario} has no metric ${physics.metric}.`,
          didYouMean(physics.metric, metrics) || `Metrics: ${metrics.join(', ')}.`,
        );
  });
}

function pattern(text: string): RegExp {
  try {
    return new RegExp(text, 'i');
  } catch {
    throw new Refusal(`--only ${text}: this is not a pattern. Write part of a check's name.`);
  }
}

/** Checks run on the same bikes as cases do: with the physics of their sheet, or of the default bike. */
async function benchMaker(model: Model): Promise<(check: Check) => Promise<PreparedBike>> {
  const physics = await defaultPhysics();
  const bare = prepareBike(model, undefined, physics);
  return async (check) => {
    if (check.bike === undefined) {
      const said = saidIn(model.rules, check);
      return said === undefined ? bare : prepareBike(model, undefined, physics, undefined, said);
    }
    const { sheet } = await fromData(check.bike, `the bike of "${check.name}"`, model.rules.adjusters);
    return prepareBike(model, sheet, await sheetPhysics(sheet));
  };
}

async function faultsOf(
  model: Model,
  bench: (check: Check) => Promise<PreparedBike>,
  check: Check,
): Promise<Pick<Problem, 'message' | 'remedy'>[]> {
  try {
    const faults = runCheck(model, await bench(check), check);
    return faults.map((fault) => ({
      message: `"${check.name}": ${fault}.`,
      remedy: 'Fix the rule, or the check.',
    }));
  } catch (error) {
    // A bike that cannot be read: each mistake says itself what to do.
    if (error instanceof Refusal) return (error.mistakes ?? [error.message]).map((message) => ({ message }));
    throw error;
  }
}

function counted(n: number, what: string): string {
  return `${n} ${what}${n === 1 ? '' : 's'}`;
}
