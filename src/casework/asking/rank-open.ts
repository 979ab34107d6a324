/** The open questions of a case, best first. */
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import { goesWithoutSaying, isOpen } from '../../diagnosis/gates.ts';
import { gains, rank, type Gain } from '../../diagnosis/inquiry.ts';
import type { Model } from '../../diagnosis/model.ts';
import type { Posterior } from '../../diagnosis/fast/class-marginals.ts';
import { atEither, CANNOT_TELL, type Question } from '../../rulebase/compiled.ts';
import type { CaseAnswer } from '../case.ts';
import { isSaidAlready } from './said-already.ts';
import type { Heard } from '../evidence.ts';
import { endsNoticed } from '../which-end.ts';
import { isAboutEnd } from '../../rulebase/no-complaint.ts';
import type { Wishes } from '../consult.ts';

/** How many questions were asked: one whose end is not known is left open at both ends, and is still one. */
export function askedOf(model: Model, answers: readonly CaseAnswer[]): number {
  const given = new Set(answers.map((a) => a.question));
  const open = ({ question, answer }: CaseAnswer): boolean =>
    answer === CANNOT_TELL && model.questionIndex.has(atEither(question)) && given.has(atEither(question));
  return answers.filter((a) => atEither(a.question) === a.question || !open(a)).length;
}

/** The open questions, best first; those answered, also with "can't tell", are not asked again. */
export function rankOpen(
  model: Model,
  posterior: Posterior,
  heard: Heard,
  onSheet: ReadonlySet<number>,
  { lastTopic, skipPutOff = false, sparing = false, inOwnWords }: Wishes & { readonly inOwnWords: boolean },
): Gain[] {
  const { settings } = model.rules;
  const told = new Set([...onSheet].map((setting) => settings[setting]!.id));
  const done = new Set([
    ...heard.evidence.map((e) => e.question),
    ...heard.cannotTell,
    ...(skipPutOff ? heard.putOff : []),
  ]);
  // Of whoever spoke of one end alone it is known which end it is, and of whoever told two things that it is both.
  const { size: ends } = endsNoticed(model.rules.questions, heard.evidence, 'ride');
  const endSaid = ends === 1 || (inOwnWords && ends > 1);
  const open = model.rules.questions.flatMap((q, i) =>
    q.either === undefined &&
    !done.has(i) &&
    !(endSaid && isAboutEnd(q)) &&
    !told.has(q.onSheet ?? q.measures ?? '') &&
    !isKindKnown(q, heard.known) &&
    !goesWithoutSaying(q, heard.known) &&
    !(inOwnWords && isSaidAlready(model.rules, heard.evidence, i)) &&
    isOpen(q, heard.known)
      ? [i]
      : [],
  );
  // A safety question goes before all others, whatever they tell.
  const first = sparing ? open.find((i) => model.rules.questions[i]!.safety) : undefined;
  return rank(
    model,
    gains(model, posterior, heard.evidence, first === undefined ? open : [first]),
    lastTopic,
  );
}

/** Whether it asks which spring an end has, and that stands on the sheet, or what was told can only be of one. */
function isKindKnown({ end, tells = {} }: Question, { bike }: Heard['known']): boolean {
  const kinds = new Set(Object.values(tells).flatMap(({ spring }) => spring ?? []));
  return kinds.size > 1 && bike(`${end}.spring`) !== undefined;
}

const read = new WeakMap<PreparedBike['findings'], ReadonlySet<number>>();

/** Settings whose gauge stands on the sheet. */
export function onSheet({ findings }: PreparedBike): ReadonlySet<number> {
  let known = read.get(findings);
  if (known === undefined) read.set(findings, (known = new Set(findings.map((f) => f.setting))));
  return known;
}
