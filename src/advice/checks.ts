/**
 * What is looked at on the bike before much is claimed.
 *
 * A rider who tells one story in every topic convinces the engine of it, whatever the bike does, and no count of answers
 * gives that away. A look at the bike does: so nothing is claimed with `claim` or more before `checks` looks in the stand
 * that could speak against it, a gauge counting for all of them, and what a gauge can read is
 * claimed on the gauge alone. "Nothing is off" rests on as many looks that found nothing, unless the rider has noticed
 * nothing either; where something bothers him, the looks explain nothing, and his complaint stands.
 */
import type { Belief, Evidence } from '../diagnosis/belief.ts';
import type { Model } from '../diagnosis/model.ts';
import { isNoComplaint } from '../rulebase/no-complaint.ts';
import type { Question } from '../rulebase/compiled.ts';

export interface Checks {
  /** whether what is claimed was looked at, or nothing so large is claimed */
  readonly done: boolean;
  /** whether a question is such a look */
  readonly wanted: (question: Question) => boolean;
}

/**
 * @param none chance of something that the rules do not know
 * @param onSheet settings whose gauge was read before, by index
 */
export function checksOf(
  model: Model,
  belief: Pick<Belief, 'causes' | 'nothing'>,
  evidence: readonly Evidence[],
  none: number,
  onSheet: ReadonlySet<number> = new Set(),
): Checks {
  const { causes, numbers } = model.rules;
  let leader = 0;
  for (let c = 1; c < belief.causes.length; c++) if (belief.causes[c]! > belief.causes[leader]!) leader = c;
  if ((1 - none) * belief.causes[leader]! >= numbers.asking.claim) {
    const { setting } = causes[leader]!;
    const { id } = model.rules.settings[setting]!;
    const gauge = (q: Question): boolean => q.measures === id;
    // What a gauge can read is not claimed on looks that say less.
    const measurable = model.rules.questions.some((q) => isLook(q) && gauge(q));
    const wanted = (q: Question): boolean =>
      isLook(q) && (measurable ? gauge(q) : q.links.some(([cause]) => causes[cause]!.setting === setting));
    const looks = countLooks(model, evidence, wanted, gauge);
    return { done: (measurable && onSheet.has(setting)) || looks >= numbers.asking.checks, wanted };
  }
  if ((1 - none) * belief.nothing >= numbers.asking['nothing-off']) {
    const found = foundNothing(model, evidence);
    return { done: found, wanted: isLook };
  }
  return { done: true, wanted: () => false };
}

/** Whether as many of these looks as are asked for were ones that he could not tell: he is asked for no more of them. */
export function cannotLook(
  { rules: { questions, numbers } }: Model,
  cannotTell: readonly number[],
  { wanted }: Checks,
): boolean {
  return cannotTell.filter((question) => wanted(questions[question]!)).length >= numbers.asking.checks;
}

/** Whether "nothing is off" has something to stand on: looks that found nothing, or a rider who noticed nothing. */
export function foundNothing(model: Model, evidence: readonly Evidence[]): boolean {
  const { questions, numbers } = model.rules;
  const told = evidence.some(
    ({ question, answer }) => questions[question]!.how !== 'stand' && answer !== questions[question]!.default,
  );
  const clean = evidence.filter(({ question, answer }) => answer === questions[question]!.default);
  return !told || countLooks(model, clean, isLook, () => false) >= numbers.asking.checks;
}

/** Whether "nothing is off" is the likeliest, no complaint stands, and as many answers told of nothing as are worth asking for. */
export function heardNothing(
  model: Model,
  { nothing }: Pick<Belief, 'nothing'>,
  evidence: readonly Evidence[],
  none: number,
  inOwnWords = false,
): boolean {
  const { 'heard-nothing': least, 'nothing-off': off } = model.rules.numbers.asking;
  if (
    least === undefined ||
    (1 - none) * nothing < off ||
    complaintStands(model, evidence, (1 - none) * nothing, inOwnWords)
  )
    return false;
  return toldOfNothing(model, evidence) >= least;
}

/** How many answers, but those about safety, told of nothing. */
function toldOfNothing({ rules: { questions } }: Model, evidence: readonly Evidence[]): number {
  return evidence.filter(({ question, answer }) => {
    const { safety, default: usual } = questions[question]!;
    return !safety && answer === usual;
  }).length;
}

/**
 * Whether the bike was looked at often enough for "it is only what the rider says", and not so often that a further look
 * could hardly find anything: "have it looked over" would then be no advice.
 */
export function lookedAt(model: Model, evidence: readonly Evidence[]): boolean {
  const { checks, 'looked-over': over } = model.rules.numbers.asking;
  const looks = countLooks(model, evidence, isLook, () => false);
  return looks >= checks && looks < over;
}

/**
 * Whether there is a complaint that clean looks do not make nothing. What the rider says bothers him decides; what he
 * noticed only when asked is noticed on bikes with nothing off as well. Where he was not asked what bothers him, so many
 * topics in which something was noticed stand for it, but where "nothing is off" is likely enough to be claimed. Who came with
 * words of his own came with a complaint: one sign is enough then; but only where, since when or beside what it is tells of
 * no trouble, once as many answers as are worth asking for told of nothing: he came with a worry. And what no sound bike does
 * stands whatever is likely.
 * @param nothing chance that nothing is off
 * @param inOwnWords whether he said in his own words what bothers him
 */
export function complaintStands(
  model: Model,
  evidence: readonly Evidence[],
  nothing: number,
  inOwnWords = false,
): boolean {
  const { rules, questionIndex } = model;
  if (evidence.some((e) => isNeverNormal(rules, e))) return true;
  const broad = questionIndex.get(rules.numbers['one-impression'].of);
  const told = evidence.find((e) => e.question === broad);
  if (told !== undefined) return told.answer !== rules.questions[told.question]!.default;
  if (!inOwnWords && nothing >= rules.numbers.asking.claim) return false;
  const worry =
    inOwnWords && toldOfNothing(model, evidence) >= (rules.numbers.asking['heard-nothing'] ?? Infinity);
  const topics = new Set<string>();
  for (const { question, answer } of evidence) {
    const q = rules.questions[question]!;
    if (worry && isNoComplaint(q)) continue;
    if (q.how !== 'stand' && !q.safety && q.links.some(([, sign]) => sign === answer)) topics.add(q.topic);
  }
  return topics.size >= (inOwnWords ? 1 : rules.numbers.asking.confirmed);
}

/** Whether no sound bike gives this answer; at an end that is not known it is as strange as at either. */
export function isNeverNormal(
  { questions }: Pick<Model['rules'], 'questions'>,
  { question, answer }: Pick<Evidence, 'question' | 'answer'>,
): boolean {
  return questions[question]!.neverNormal?.includes(answer) === true;
}

function countLooks(
  { rules }: Model,
  evidence: readonly Evidence[],
  wanted: (q: Question) => boolean,
  gauge: (q: Question) => boolean,
): number {
  let looks = 0;
  for (const { question } of evidence) {
    const q = rules.questions[question]!;
    if (wanted(q)) looks += gauge(q) ? rules.numbers.asking.checks : 1;
  }
  return looks;
}

function isLook(q: Question): boolean {
  return q.how === 'stand' && !q.safety;
}
