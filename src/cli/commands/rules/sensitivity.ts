/** `earshot rules check --sensitivity`: the words of the rules on which most checks hang. */
import type { Here } from '../../takes.ts';
import { saidIn } from '../../../casework/check-rules.ts';
import { prepareBike, type PreparedBike } from '../../../advice/prepared-bike.ts';
import { buildModel, type Model } from '../../../diagnosis/model.ts';
import { checkSensitivity } from '../../../evaluation/sensitivity.ts';
import { strengthsOf } from '../../../evaluation/strengths.ts';
import { checkSensitivityText } from '../../../report/rules/sensitivity-text.ts';
import { printableLines } from '../../../report/foreign-text.ts';
import { fit } from '../../../report/style.ts';
import type { Check } from '../../../rulebase/compile-checks.ts';
import { problemLine } from '../../../form/problem.ts';
import { compilePacks } from '../../../workspace/rules/compile-packs.ts';
import { EXIT, Refusal, type ExitCode } from '../../../host/io.ts';
import { packFolders } from '../../../workspace/rules/load-rules.ts';
import { fromData } from '../../../workspace/bikes/load-sheet.ts';
import { defaultPhysics, sheetPhysics } from '../../../workspace/physics.ts';
import { digestOf } from '../../../workspace/rules/rule-files.ts';
import { VERSION } from '../../../host/root.ts';

/** How many rules the text lists. */
const MOST = 15;

export async function rulesSensitivity(
  options: { readonly only?: string | undefined; readonly format: 'text' | 'json' },
  { io, rules: named, style: styleOf }: Here,
): Promise<ExitCode> {
  const packs = packFolders(io, named);
  const { rules, checks, problems } = compilePacks(packs, digestOf(packs, VERSION));
  if (rules === undefined)
    throw new Refusal(
      [...problems.map(problemLine), 'The rules do not compile; fix these lines.'].join('\n'),
    );
  const wanted = options.only?.toLowerCase();
  const chosen = checks.filter(
    (c) => wanted === undefined || `${c.name} ${c.at}`.toLowerCase().includes(wanted),
  );
  if (chosen.length === 0)
    throw new Refusal(
      'There is no check to try the rules on. Add checks in a .checks.yaml file, or widen --only.',
    );
  const model = buildModel(rules);
  const { ready, leftOut } = await withBenches(model, chosen);
  for (const { check, why } of leftOut)
    io.err(`${printableLines(`${placed(check)}: "${check.name}" is left out: ${why}`)}\n`);
  const hanging = checkSensitivity(model, ready, (done, of) => {
    if (io.stderrIsTty && (done % 5 === 0 || done === of)) io.err(`\r${done} of ${of} strengths moved `);
  });
  if (io.stderrIsTty) io.err('\r\u001b[K');
  const strengths = strengthsOf(rules).length;
  if (options.format === 'json')
    await io.out(
      `${JSON.stringify(
        {
          format: 1,
          strengths,
          checks: ready.length,
          leftOut: leftOut.map(({ check, why }) => ({ check: check.name, at: placed(check), why })),
          rules: hanging.map(({ strength, ...h }) => ({ rule: strength.id, ...h })),
        },
        null,
        2,
      )}\n`,
    );
  else {
    const counts = { strengths, checks: ready.length, leftOut: leftOut.length };
    const style = await styleOf();
    const text = checkSensitivityText(rules, hanging, counts, MOST, Math.min(80, style.width));
    await io.out(fit(text, style));
  }
  return leftOut.length === 0 ? EXIT.done : EXIT.some;
}

function placed({ place }: Check): string {
  return `${place.file}:${place.line}:${place.col}`;
}

interface Benches {
  readonly ready: { readonly check: Check; readonly bench: PreparedBike }[];
  /** checks whose bike cannot be read, with all that is wrong with it */
  readonly leftOut: { readonly check: Check; readonly why: string }[];
}

/** Checks on the bikes they name. */
async function withBenches(model: Model, checks: readonly Check[]): Promise<Benches> {
  const physics = await defaultPhysics();
  const bare = prepareBike(model, undefined, physics);
  const ready: Benches['ready'] = [];
  const leftOut: Benches['leftOut'] = [];
  for (const check of checks) {
    if (check.bike === undefined) {
      const said = saidIn(model.rules, check);
      const bench = said === undefined ? bare : prepareBike(model, undefined, physics, undefined, said);
      ready.push({ check, bench });
      continue;
    }
    try {
      const { sheet } = await fromData(check.bike, `the bike of "${check.name}"`, model.rules.adjusters);
      ready.push({ check, bench: prepareBike(model, sheet, await sheetPhysics(sheet)) });
    } catch (error) {
      if (!(error instanceof Refusal)) throw error;
      leftOut.push({ check, why: error.message });
    }
  }
  return { ready, leftOut };
}
