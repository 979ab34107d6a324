/** Which of the open questions is asked: the best one, but for the end that nothing speaks of. */
import type { Consultation } from '../casework/consult.ts';
import { isCalledByEnd } from '../casework/asking/early.ts';
import { endsNoticed } from '../casework/which-end.ts';
import type { Model } from '../diagnosis/model.ts';
import { CANNOT_TELL } from '../rulebase/compiled.ts';
import { answersGiven, type Interview } from './state.ts';

/** Best first; while the topics of the rider's complaint have a question that tells something, those come first. */
export function nextQuestion(model: Model, state: Interview, c: Consultation): string | undefined {
  const { questions, numbers } = model.rules;
  const [pressing] = c.pressing ? c.open : [];
  // Springs that were never set are measured at both ends, wherever the trouble is.
  if (pressing !== undefined && isCalledByEnd(model, pressing.question, c.heard.known, c.tried.effects))
    return questions[pressing.question]!.id;
  const here = c.open.filter((g) => !elsewhere(model, c, g.question));
  // Where only the other end is left to ask about, it is.
  const open = (here[0]?.bits ?? 0) >= numbers.asking['least-bits'] ? here : c.open;
  const best = open[0];
  if (best === undefined) return undefined;
  const touched = state.steps.some((s) =>
    state.topics.includes(questions[model.questionIndex.get(s.question)!]!.topic),
  );
  if (c.pressing && best === c.open[0]) return questions[best.question]!.id;
  if (!questions[best.question]!.safety && !touched) {
    const own = open.find(
      (g) => state.topics.includes(questions[g.question]!.topic) && g.bits >= numbers.asking['least-bits'],
    );
    if (own !== undefined) return questions[own.question]!.id;
  }
  return questions[(lookInstead(model, state, c, open) ?? best).question]!.id;
}

/** So many answers in a row that the rider did not know: then the bike is asked. */
const UNKNOWN = 2;
/** A look tells at least this share of what the best question would. Judgement. */
const AS_TELLING = 0.5;

/** Whoever cannot tell from memory can still look: the best question for the stand, where it tells nearly as much. */
function lookInstead(
  model: Model,
  { steps }: Interview,
  { heard }: Consultation,
  open: Consultation['open'],
) {
  const { questions, numbers } = model.rules;
  const last = answersGiven(steps).slice(-UNKNOWN);
  if (last.length < UNKNOWN || !last.every(({ answer }) => answer === CANNOT_TELL)) return undefined;
  const ends = endsNoticed(questions, heard.evidence, 'anywhere');
  const least = Math.max(numbers.asking['least-bits'], AS_TELLING * open[0]!.bits);
  return open.find(({ question, bits }) => {
    const { how, end } = questions[question]!;
    return how === 'stand' && bits >= least && (end === undefined || ends.size === 0 || ends.has(end));
  });
}

/**
 * What is asked of an interview that is taken up again: what was left open, but for the end that nothing speaks of. Where
 * none of it is about the end that was noticed, and nothing is advised, what tells most goes first.
 */
export function takenUp(
  model: Model,
  state: Interview,
  c: Consultation,
  open: readonly string[],
): readonly string[] {
  const { questions } = model.rules;
  const at = (id: string): number => model.questionIndex.get(id)!;
  const here = open.filter((id) => !elsewhere(model, c, at(id)));
  const ends = endsNoticed(questions, c.heard.evidence, 'anywhere');
  const other = (id: string): boolean => {
    const { end } = questions[at(id)]!;
    return end !== undefined && ends.size > 0 && !ends.has(end);
  };
  const next =
    c.advice.verdict === 'unknown' && here.every(other) ? nextQuestion(model, state, c) : undefined;
  const first = next === undefined || here.includes(next) ? [] : [next];
  return first.length + here.length > 0 ? [...first, ...here] : open;
}

/** Whether a question is about the end of which nothing was noticed, and where nothing likely is. */
function elsewhere(model: Model, c: Consultation, question: number): boolean {
  const { questions, causes, settings, numbers } = model.rules;
  const { end, safety } = questions[question]!;
  if (safety || end === undefined) return false;
  const ends = endsNoticed(questions, c.heard.evidence, 'anywhere');
  if (ends.size !== 1 || ends.has(end)) return false;
  return causes.every(
    (cause, i) => settings[cause.setting]!.end !== end || c.belief.causes[i]! < numbers.asking['other-end'],
  );
}
