/** What of a result answers the rider: what he asked about doing, and what he is to find out. */
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import type { Case } from '../../casework/case.ts';
import type { Consultation } from '../../casework/consult.ts';
import { answerWishes } from '../../casework/said/answer-wishes.ts';
import { contradiction } from '../../diagnosis/gates.ts';
import type { Model } from '../../diagnosis/model.ts';
import type { Wished } from '../../words/tried/tried.ts';
import { isGoneBack } from './put-back-of.ts';
import type { Result } from './result.ts';
import { round } from '../round.ts';

/** Below STOP nothing is turned. */
export function askedOf(
  model: Model,
  bench: PreparedBike,
  c: Consultation,
  wishes: readonly Wished[] = [],
): Pick<Result, 'asked'> {
  if (wishes.length === 0 || c.advice.verdict === 'stop') return {};
  const { adjustments, settings } = bench.rules;
  // What goes back is a part of the first step.
  const answered = answerWishes(model, bench, c, wishes, (index) => isGoneBack(bench, c, index));
  const asked = answered.map(({ adjustment, phrase, first, why, better, worse }) => {
    const { id, change } = adjustments[adjustment]!;
    return {
      phrase,
      id,
      what: settings.find((setting) => setting.id === change?.setting)?.name ?? id,
      first,
      why: why ?? null,
      better: round(better),
      worse: round(worse),
    };
  });
  return asked.length === 0 ? {} : { asked };
}

/** "Can't tell" and "not now" turn a question into something to go and find out, in the order they came up. */
export function assignmentsOf(model: Model, kase: Case, c: Consultation): Result['assignments'] {
  const { questions } = model.rules;
  const open = new Set([...c.heard.cannotTell, ...c.heard.putOff]);
  const list =
    open.size === 0
      ? []
      : kase.answers
          .map((a) => model.questionIndex.get(a.question)!)
          .filter((i) => open.has(i))
          .map((i) => questions[i]!)
          // What the bike was said since not to have is no task any more.
          .filter((q) => contradiction(q, c.heard.known) === undefined);
  // When nothing certain can be said, the best question that needs a ride or a stand becomes the assignment.
  if (c.advice.verdict === 'unknown') {
    const best = c.open.map((g) => questions[g.question]!).find((q) => q.how !== 'recall');
    if (best !== undefined) list.push(best);
  }
  return [...new Set(list)].map((q) => ({ question: q.id, text: q.assignment ?? `${q.ask} ${q.help}` }));
}
