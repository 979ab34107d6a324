/** Riders made up from the model, with what is really off, and ways of answering that the model does not know about. */
import { randomLcg } from 'd3-random';
import { answerProbabilities } from '../diagnosis/answer-model.ts';
import type { Model } from '../diagnosis/model.ts';
import { membersOf } from '../diagnosis/hypotheses.ts';
import type { Question } from '../rulebase/compiled.ts';
import { CANNOT_TELL } from '../rulebase/compiled.ts';

/** How far riders answer otherwise than the model says; all probabilities, 0 = exactly as the model says. */
export interface Manners {
  /** an answer from memory or a ride is replaced by another of the same question */
  readonly slips: number;
  /** a check on the bike is misread: any of its answers, alike */
  readonly misread: number;
  /** an answer is "can't tell" */
  readonly cannotTell: number;
  /** a whole topic at one end, remembered or ridden, is answered at random: one impression, wrong as a whole */
  readonly topicWrong: number;
  /** the rider tells the other end's story: front and rear are mixed up throughout */
  readonly endMixedUp: number;
  /** a question of any topic is answered in the sense of an earlier sign, whatever the bike does */
  readonly echoes: number;
  /** a question from memory or a ride is answered in the sense of the first sign told, whatever the bike does */
  readonly follows?: number;
  /** signs that come by themselves come this many times as often: one who complains of everything */
  readonly complains?: number;
  /** causes show this much of their usual strength: two that mask each other */
  readonly masked?: number;
  /** every question from memory or a ride is answered in the sense of these causes, where it has such an answer */
  readonly fixed?: ReadonlySet<number>;
}

export const AS_THE_MODEL: Manners = {
  slips: 0,
  misread: 0,
  cannotTell: 0,
  topicWrong: 0,
  endMixedUp: 0,
  echoes: 0,
};

export interface Rider {
  /** what is really off, by cause index */
  readonly truth: readonly number[];
  /** the answer to a question, always the same for the same question */
  answer(question: number): string;
}

export type Random = () => number;

/** A generator of numbers in [0, 1) that is the same for the same seed. */
export function seeded(seed: number): Random {
  return randomLcg(seed);
}

/**
 * Draws what is off from the model's own prior, given how many causes are off together.
 * @param count how many; undefined draws that too
 */
export function drawTruth(model: Model, prior: Float64Array, random: Random, count?: number): number[] {
  const { space } = model;
  const counts = (h: number): boolean => count === undefined || space.depth[h] === count;
  let total = 0;
  for (let h = 0; h < space.size; h++) if (counts(h)) total += prior[h]!;
  let left = random() * total;
  for (let h = 0; h < space.size; h++) {
    if (!counts(h)) continue;
    left -= prior[h]!;
    if (left < 0) return membersOf(space, h);
  }
  return [];
}

export function makeRider(model: Model, truth: readonly number[], manners: Manners, random: Random): Rider {
  const { questions, causes } = model.rules;
  const mixed = random() < manners.endMixedUp;
  const other = (id: string): string =>
    id.replace(/\b(front|rear)\b/g, (end) => (end === 'front' ? 'rear' : 'front'));
  // A rider who mixes up the ends feels the causes mirrored.
  const felt = mixed ? truth.map((c) => model.causeIndex.get(other(causes[c]!.id)) ?? c) : truth;
  const wrongTopics = new Map<string, boolean>();
  const given = new Map<number, string>();
  const told: ReadonlySet<number>[] = [];
  const { echoes } = manners;
  return {
    truth,
    answer(index) {
      const known = given.get(index);
      if (known !== undefined) return known;
      const q = questions[index]!;
      const heard = inManner(q, manners);
      if (!wrongTopics.has(q.group))
        wrongTopics.set(q.group, random() < (q.how === 'stand' ? manners.misread : manners.topicWrong));
      let answer: number;
      const colouring = q.how === 'stand' ? undefined : colouringOf(index);
      if (colouring !== undefined) answer = colouring;
      else if (wrongTopics.get(q.group)!) answer = Math.floor(random() * q.answers.length);
      else answer = draw(answerProbabilities(heard, felt, new Float64Array(q.answers.length)), random);
      if (q.how !== 'stand' && random() < manners.slips)
        answer = (answer + 1 + Math.floor(random() * (q.answers.length - 1))) % q.answers.length;
      const pointedTo = new Set(q.links.filter(([, a]) => a === answer).map(([c]) => c));
      if (q.how !== 'stand' && answer !== q.default) told.push(pointedTo);
      const said = random() < manners.cannotTell ? CANNOT_TELL : q.answers[answer]!.id;
      given.set(index, said);
      return said;
    },
  };

  function colouringOf(index: number): number | undefined {
    const { fixed, follows = 0 } = manners;
    if (fixed !== undefined) return signOf(index, fixed);
    if (follows > 0 && random() < follows) return told[0] === undefined ? undefined : signOf(index, told[0]);
    return echoes > 0 && random() < echoes ? colouredBy(index) : undefined;
  }

  /** The sign that points to most of these causes; undefined where none does. */
  function signOf(index: number, causes: ReadonlySet<number>): number | undefined {
    const answer = echoOf(index, causes);
    return answer === questions[index]!.default ? undefined : answer;
  }

  /** The answer in the sense of one of the signs told so far; undefined where the question has none. */
  function colouredBy(index: number): number | undefined {
    if (told.length === 0) return undefined;
    const answer = echoOf(index, told[Math.floor(random() * told.length)]!);
    return answer === questions[index]!.default ? undefined : answer;
  }

  /** The answer that points to most of the causes that an earlier sign pointed to. */
  function echoOf(index: number, last: ReadonlySet<number>): number {
    const q = questions[index]!;
    let best = q.default;
    let most = 0;
    q.answers.forEach((_, a) => {
      const shared = q.links.filter(([c, to]) => to === a && last.has(c)).length;
      if (shared > most) {
        most = shared;
        best = a;
      }
    });
    return best;
  }
}

/** The question as it works on this rider. */
function inManner(q: Question, { complains = 1, masked = 1 }: Manners): Question {
  if (q.how === 'stand' || (complains === 1 && masked === 1)) return q;
  return {
    ...q,
    base: q.base.map((b) => Math.min(0.9, complains * b)),
    links: q.links.map(([cause, answer, s]) => [cause, answer, masked * s] as const),
  };
}

function draw(probabilities: Float64Array, random: Random): number {
  let left = random();
  for (let i = 0; i < probabilities.length; i++) {
    left -= probabilities[i]!;
    if (left < 0) return i;
  }
  return probabilities.length - 1;
}
