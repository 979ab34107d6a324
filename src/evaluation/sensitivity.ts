/** Which single word of the rules the advice on a case, or the checks of a pack, hang on. */
import type { PreparedBike } from '../advice/prepared-bike.ts';
import type { Verdict } from '../advice/advise.ts';
import type { Case } from '../casework/case.ts';
import { runCheck } from '../casework/check-rules.ts';
import { modelFor } from '../casework/rider.ts';
import { tellingOf } from '../casework/what-if/telling.ts';
import { once } from '../diagnosis/fast/once.ts';
import { withStrengths, type Model } from '../diagnosis/model.ts';
import { withoutEnd, type Question } from '../rulebase/compiled.ts';
import type { Check } from '../rulebase/compile-checks.ts';
import { ladderOf, nearestRung, neighbours, type Rung } from './word-scale.ts';
import { strengthsOf, withValue, type Strength } from './strengths.ts';

/** The questions with one strength moved, at every end it stands for. */
function movedTo(model: Model, strength: Strength, value: number): Map<number, Question> {
  return new Map(
    strength.spots.map(({ question }) => [
      question,
      withValue(
        model.rules.questions[question]!,
        strength.spots.filter((s) => s.question === question),
        value,
      ),
    ]),
  );
}

/** The model with one strength moved, at every end it stands for. */
export function withMoved(model: Model, strength: Strength, value: number): Model {
  return withStrengths(model, movedTo(model, strength, value));
}

export interface Tipping {
  readonly strength: Strength;
  readonly from: Rung;
  readonly to: Rung;
  /** the adjustment that would come first, as an index into the rule base; undefined when none would */
  readonly first: number | undefined;
  readonly verdict: Verdict;
}

export interface CaseSensitivity {
  /** how many strengths the case's answers touch */
  readonly tried: number;
  readonly tipping: readonly Tipping[];
}

/** Every strength of an answered question, one word down and one up: which would change what is done first. */
export function caseSensitivity(pack: Model, bench: PreparedBike, kase: Case): CaseSensitivity {
  // Base rates as they hold for this rider: one word up or down from there.
  const model = modelFor(pack, bench, kase);
  const telling = tellingOf(model, bench, kase);
  const base = telling.own();
  const ladder = ladderOf(model.rules);
  const { questions } = model.rules;
  // Both ends of a question are one strength.
  const answered = new Set([...telling.answered].map((q) => withoutEnd(questions[q]!.id)));
  const touched = strengthsOf(model.rules, (q) => answered.has(withoutEnd(q.id))).filter((s) =>
    s.spots.some((at) => telling.answered.has(at.question)),
  );
  // Few words are said of hundreds of strengths.
  const rungs = new Map<number, readonly Rung[]>();
  const beside = (value: number): readonly Rung[] => {
    const known = rungs.get(value) ?? neighbours(ladder, value);
    rungs.set(value, known);
    return known;
  };
  const tipping = touched.flatMap((strength) => {
    const under = telling.moved(strength);
    return beside(strength.value).flatMap((to): Tipping[] => {
      const questions = once(() => movedTo(model, strength, to.value));
      const { first, verdict } = under(to.value, questions);
      if (first === base.first && verdict === base.verdict) return [];
      return [{ strength, from: nearestRung(ladder, strength.value), to, first, verdict }];
    });
  });
  return { tried: touched.length, tipping };
}

export interface Hanging {
  readonly strength: Strength;
  readonly word: string;
  /** one word down and one up, where there is one: how many checks come out otherwise */
  readonly moves: readonly { readonly to: string; readonly flips: number }[];
  /** checks that come out otherwise under either move */
  readonly flips: number;
  /** checks that answer the question at all */
  readonly checks: number;
}

/**
 * For every strength, the checks that come out otherwise when it is moved one word.
 * @param progress told after every strength, of how many
 * @returns by falling number of checks; those that no check hangs on are left out
 */
export function checkSensitivity(
  model: Model,
  checks: readonly { readonly check: Check; readonly bench: PreparedBike }[],
  progress: (done: number, of: number) => void,
): Hanging[] {
  const ladder = ladderOf(model.rules);
  const holds = (m: Model, i: number): boolean =>
    runCheck(m, checks[i]!.bench, checks[i]!.check).length === 0;
  const before = checks.map((_, i) => holds(model, i));
  const byQuestion = new Map<number, number[]>();
  checks.forEach(({ check }, i) => {
    for (const id of Object.keys(check.given)) {
      const q = model.questionIndex.get(id)!;
      byQuestion.set(q, [...(byQuestion.get(q) ?? []), i]);
    }
  });
  const all = strengthsOf(model.rules);
  const out: Hanging[] = [];
  all.forEach((strength, n) => {
    const questions = new Set(strength.spots.map((s) => s.question));
    const asked = [...new Set([...questions].flatMap((q) => byQuestion.get(q) ?? []))];
    const flipped = new Set<number>();
    // What no check asks about flips none.
    const rungs = asked.length === 0 ? [] : neighbours(ladder, strength.value);
    const moves = rungs.map((to) => {
      const moved = withMoved(model, strength, to.value);
      const flips = asked.filter((i) => holds(moved, i) !== before[i]);
      flips.forEach((i) => flipped.add(i));
      return { to: to.word, flips: flips.length };
    });
    if (flipped.size > 0)
      out.push({
        strength,
        word: nearestRung(ladder, strength.value).word,
        moves,
        flips: flipped.size,
        checks: asked.length,
      });
    progress(n + 1, all.length);
  });
  return out.sort(
    (a, b) => b.flips - a.flips || b.checks - a.checks || (a.strength.id < b.strength.id ? -1 : 1),
  );
}
