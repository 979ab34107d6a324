/** Runs the checks that stand beside the rules. */
import { cautionsOf, whileLikely } from '../advice/cautions.ts';
import type { PreparedBike } from '../advice/prepared-bike.ts';
import type { Model } from '../diagnosis/model.ts';
import type { BikeSheet } from '../bike/sheet.ts';
import type { CompiledRules } from '../rulebase/compiled.ts';
import type { Check } from '../rulebase/compile-checks.ts';
import type { CaseAnswer } from './case.ts';
import { consult } from './consult.ts';
import { withToldSprings } from './told-spring.ts';

/** A cause that a check excludes must stay below this probability. */
export const EXCLUDED_BELOW = 0.2;

/** What the answers of a check without a bike tell of it; undefined where they tell nothing. */
export function saidIn(rules: CompiledRules, check: Check): BikeSheet | undefined {
  return withToldSprings(rules, { answers: answersOf(check) });
}

function answersOf({ given }: Check): CaseAnswer[] {
  return Object.entries(given).map(([question, answer]) =>
    typeof answer === 'string'
      ? { question, answer, sure: 'sure' as const }
      : { question, answer: answer.answer, sure: answer.sure ?? ('sure' as const) },
  );
}

/** What did not come out as expected, a line each; empty when the check holds. */
export function runCheck(model: Model, bench: PreparedBike, check: Check): string[] {
  const { rules } = model;
  const answers = answersOf(check);
  const c = consult(
    model,
    bench,
    { id: check.name, answers, results: [], earlier: [] },
    { next: false, explain: 0, fit: false },
  );
  const id = (i: number): string => rules.causes[i]!.id;
  const p = (cause: string): number => c.belief.causes[model.causeIndex.get(cause)!]!;
  const leaders = c.ranked
    .slice(0, 3)
    .map((i) => `${id(i)} ${p(id(i)).toFixed(2)}`)
    .join(', ');
  const first = c.ranked[0]!;
  const done = c.advice.first === undefined ? 'nothing' : rules.adjustments[c.advice.first]!.id;
  const e = check.expect;
  const faults: string[] = [];
  const fault = (text: string): void =>
    void faults.push(
      `${text} (leading: ${leaders}; nothing off ${c.belief.nothing.toFixed(2)}; first: ${done})`,
    );
  // An answer that its gate sets aside tries nothing, whatever else comes out.
  for (const { question, against, value } of c.heard.contradictions)
    faults.push(
      `its answer to ${question} is set aside, because ${against} is ${value}; leave it out, or answer ${against} otherwise`,
    );
  if (e.first !== undefined && id(first) !== e.first) fault(`expected ${e.first} first`);
  if (e.oneOf !== undefined && !e.oneOf.includes(id(first)))
    fault(`expected one of ${e.oneOf.join(', ')} first`);
  for (const cause of e.top3 ?? [])
    if (!c.ranked.slice(0, 3).some((i) => id(i) === cause)) fault(`expected ${cause} among the first three`);
  for (const cause of e.not ?? [])
    if (p(cause) >= EXCLUDED_BELOW)
      fault(`expected ${cause} below ${EXCLUDED_BELOW}, it is ${p(cause).toFixed(2)}`);
  if (e.atLeast !== undefined && c.belief.causes[first]! < e.atLeast)
    fault(`expected the first cause at ${e.atLeast} or more`);
  if (e.nothing !== undefined && (c.advice.verdict === 'leave') !== e.nothing)
    fault(
      `expected the verdict ${e.nothing ? 'nothing is off' : 'not to be that nothing is off'}, it is ${c.advice.verdict}`,
    );
  if (e.adjustment !== undefined && !e.adjustment.includes(done))
    fault(`expected ${e.adjustment.join(' or ')} to be done first`);
  for (const a of e.notAdjustment ?? []) if (done === a) fault(`expected ${a} not to be done first`);
  if (e.caution !== undefined) {
    const own =
      c.advice.first === undefined ? [] : cautionsOf(rules.adjustments[c.advice.first]!, c.heard.known);
    const likely = c.advice.verdict === 'stop' ? [] : whileLikely(model, c.belief, c.none);
    const said = [...c.heard.dangers.map((d) => d.caution), ...c.heard.cautions, ...own, ...likely];
    if (!said.includes(e.caution)) fault(`expected the caution ${e.caution}`);
  }
  return faults;
}
