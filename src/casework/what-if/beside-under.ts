/**
 * What stands beside the causes under other strengths: as `besideOf` has it of a model with these strengths, from what each
 * answer says under the model's own. Hundreds of single strengths are tried, and each touches one question.
 */
import type { Evidence } from '../../diagnosis/belief.ts';
import {
  chanceTold,
  followedIn,
  following,
  followStory,
  ownStories,
  storiesAtFirst,
  storyCauses,
  timesTold,
  type Followed,
  type HowTold,
} from '../../diagnosis/impression.ts';
import type { Model } from '../../diagnosis/model.ts';
import { askedAt, chancesOfNone, chancesWithout, logEvidenceOfNone } from '../../diagnosis/none.ts';
import type { Question } from '../../rulebase/compiled.ts';

/** Questions with other strengths by index, pointing to the same causes; natural logarithms of P(answers). */
export type LogUnder = (changed: ReadonlyMap<number, Question>) => number;

/** ln P(answers of a round | none of these). */
export function noneUnder(model: Model, evidence: readonly Evidence[]): LogUnder {
  const { questions, numbers } = model.rules;
  const usual = logEvidenceOfNone(model, evidence);
  return (changed) => {
    // Links have no part in it.
    const moved = [...changed].filter(([index, now]) => !hasSameBase(questions[index]!, now));
    if (moved.length === 0) return usual;
    const chances = new Map(moved.map(([index, now]) => [index, chancesWithout(now, numbers)]));
    return logEvidenceOfNone(
      model,
      evidence,
      (index) => chances.get(askedAt(model.rules, index)) ?? chancesOfNone(model, index),
    );
  };
}

/** ln P(answers of all rounds | one impression throughout). */
export function impressionUnder(model: Model, evidence: readonly Evidence[]): LogUnder {
  const { questions, numbers, causes } = model.rules;
  const { of, bound } = numbers['one-impression'];
  const broad = model.questionIndex.get(of);
  if (broad === undefined) return () => -Infinity;
  const leading = questions[broad]!;
  const parts = storyCauses(leading, causes.length);
  const scratch: Followed = {
    sign: new Int16Array(leading.answers.length),
    often: new Float64Array(leading.answers.length),
  };
  const all = evidence.map((told): Column => {
    const asked = askedAt(model.rules, told.question);
    const how = { chances: chancesOfNone(model, told.question), bound };
    return {
      told,
      asked,
      question: questions[asked]!,
      how: { ...followedIn(model, leading, told.question), ...how },
      other: { ...scratch, ...how },
    };
  });
  const usual = storiesAtFirst(leading);
  for (const { told, how } of all) timesTold(usual, told, how);
  /** The broad question has one link moved: of all stories only that of its sign is told otherwise. */
  const inOneStory = (now: Question, story: number): number => {
    const other = storyCauses(now, causes.length);
    let p = story === leading.default ? 0 : 1 / (usual.length - 1);
    for (let i = 0; i < all.length; i++) {
      const { told, question, how, other: to } = all[i]!;
      if (question.how === 'stand') p *= chanceTold(story, told, how);
      else {
        if (question === leading) ownStories(now, to);
        else followStory(now, story, { parts: other, asked: question }, to);
        p *= chanceTold(story, told, to);
      }
    }
    return sumOf(usual) - usual[story]! + p;
  };
  return (changed) => {
    const nowLeading = changed.get(broad) ?? leading;
    const story = changed.size === 1 && nowLeading !== leading ? onlyStory(leading, nowLeading) : undefined;
    if (story !== undefined) return Math.log(inOneStory(nowLeading, story));
    const now = nowLeading === leading ? parts : storyCauses(nowLeading, causes.length);
    const p = storiesAtFirst(nowLeading);
    for (let i = 0; i < all.length; i++) {
      const { told, asked, question, how } = all[i]!;
      const moved = changed.get(asked) ?? question;
      if (moved === question && nowLeading === leading) timesTold(p, told, how);
      else {
        const chances = hasSameBase(question, moved) ? how.chances : chancesWithout(moved, numbers);
        timesTold(p, told, { ...following(nowLeading, now, moved), chances, bound });
      }
    }
    return Math.log(sumOf(p));
  };
}

interface Column {
  readonly told: Evidence;
  /** the question that stands for it, by index */
  readonly asked: number;
  readonly question: Question;
  readonly how: HowTold;
  /** the same as it follows one story under other strengths; written over */
  readonly other: HowTold;
}

/** The sign whose links differ, where nothing else does; undefined otherwise. */
function onlyStory(own: Question, now: Question): number | undefined {
  if (!hasSameBase(own, now)) return undefined;
  let only: number | undefined;
  for (let i = 0; i < own.links.length; i++) {
    const link = now.links[i]!;
    if (link === own.links[i] || link[2] === own.links[i]![2]) continue;
    if (only !== undefined && only !== link[1]) return undefined;
    only = link[1];
  }
  return only;
}

function hasSameBase(own: Question, now: Question): boolean {
  return own.base === now.base || own.base.every((b, a) => b === now.base[a]);
}

function sumOf(p: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < p.length; i++) sum += p[i]!;
  return sum;
}
