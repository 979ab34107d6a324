/** One round of a case: what is believed after it, and what is advised. */
import type { InVain } from '../advice/refused.ts';
import type { Deed } from '../bike/deed.ts';
import type { PreparedBike } from '../advice/prepared-bike.ts';
import { update, type Belief } from '../diagnosis/belief.ts';
import { further } from '../diagnosis/fast/further.ts';
import { asFollowed, averageOf, chanceFollowing } from '../diagnosis/following.ts';
import type { Gain } from '../diagnosis/inquiry.ts';
import { logOdds } from '../diagnosis/log-odds.ts';
import type { Model } from '../diagnosis/model.ts';
import { seenOf } from '../diagnosis/results.ts';
import { adviserOf, type CaseAdvice } from './advise-case.ts';
import { afterResult } from './trial-effect.ts';
import { besideAfter, besideOf, type Stood, type TrialSeen } from './beside.ts';
import type { Case, Round } from './case.ts';
import { hear, type Heard } from './evidence.ts';
import { nextSteps } from './larger-again.ts';
import { riddenInVain } from './ridden-in-vain.ts';
import { weighTried, type TriedBefore } from './tried/weigh-tried.ts';

/** Arrays as long as the space, and as the causes, that are written over. */
export interface Scratch {
  readonly weights: Float64Array<ArrayBuffer>;
  readonly causes: Float64Array<ArrayBuffer>;
}

export interface TrialEffect {
  readonly change: Deed;
  readonly outcome: string;
  /** decibans a cause, in the order of the rule base */
  readonly decibans: Float64Array;
}

export interface Thought extends Omit<ReturnType<typeof ride>, 'seen'>, CaseAdvice {
  readonly heard: Heard;
  readonly told: Belief;
  readonly tried: TriedBefore;
  readonly none: number;
  readonly impression: number;
  /** the bike with the steps that are named after what was tried and ridden */
  readonly cut: PreparedBike;
  /** as in a consultation */
  readonly ridden: ReadonlyMap<number, InVain> | undefined;
}

/** The last round of a case: what is believed after it, and what is advised. */
export function think(
  model: Model,
  bench: PreparedBike,
  prior: Float64Array,
  kase: Case,
  {
    room,
    unplaced,
    stood,
    like,
  }: {
    readonly room?: Scratch | undefined;
    readonly unplaced: Deed[];
    readonly stood: Stood;
    /** the same case with other answers, thought through already */
    readonly like?: Thought;
  },
): Thought {
  const heard = hear(model, kase.answers, bench.fact);
  const tried = like?.tried ?? weighTried(model, bench, prior, kase);
  const told =
    (like === undefined || room === undefined
      ? undefined
      : further(model, like.told, { was: like.heard.evidence, now: heard.evidence }, room)) ??
    update(model, tried.weights, heard.evidence, room?.weights, room?.causes);
  const { belief, trials, seen } = ride(model, bench, told, kase, unplaced);
  const said = [...stood.said, { evidence: heard.evidence, underCauses: told.logEvidence }];
  const { none, impression } = besideAfter(besideOf(model, said), [...stood.seen, ...seen]);
  const cut = like?.cut ?? nextSteps(model, bench, tried.effects, kase);
  const { ridden } = like ?? { ridden: riddenInVain(model, cut, kase) };
  const { advice, back, left } = adviserOf(model, cut, { kase, heard, tried: tried.effects, ridden })(
    belief,
    {
      none,
      impression,
    },
  );
  return { heard, told, belief, trials, tried, back, left, none, impression, advice, cut, ridden };
}

/** A question is not asked for answers that would put something else first and come less often than this. */
const LEAST_MOVING = 0.05;

/** What is believed after it, averaged over riders who follow their complaint and those who do not. */
export function averagedOf(
  model: Model,
  bench: PreparedBike,
  kase: Case,
  { heard, tried, belief }: Pick<Thought, 'heard' | 'tried' | 'belief'>,
): Belief {
  const followed = asFollowed(model, heard.evidence);
  if (followed === undefined) return belief;
  const following = ride(model, bench, update(model, tried.weights, followed), kase, []).belief;
  const chance = chanceFollowing(model, following.logEvidence, belief.logEvidence);
  return averageOf(belief, following, chance);
}

/** The best question that is still worth asking and may well be answered so that something else comes first. */
export function mayMove(
  model: Model,
  bench: PreparedBike,
  prior: Float64Array,
  kase: Case,
  {
    now,
    stood,
    ranking,
  }: {
    readonly now: Thought;
    readonly stood: Stood;
    readonly ranking: readonly Gain[];
  },
): number | undefined {
  const { questions, numbers } = model.rules;
  const room = { weights: new Float64Array(model.space.size), causes: new Float64Array(model.space.causes) };
  return ranking
    .filter(({ bits }) => bits >= numbers.asking['least-bits'])
    .find(({ question, chances }) => {
      const { id, answers } = questions[question]!;
      const others = kase.answers.filter((a) => a.question !== id);
      let moving = 0;
      let left = 1;
      // The likeliest first: once all that are left come less often than that, none of them needs a look.
      for (const answer of byChance(chances)) {
        if (kase.results.length === 0 && moving + left < LEAST_MOVING) return false;
        left -= chances[answer]!;
        const answered = [...others, { question: id, answer: answers[answer]!.id, sure: 'sure' as const }];
        const then = think(
          model,
          bench,
          prior,
          { ...kase, answers: answered },
          { room, unplaced: [], stood, like: now },
        );
        if (then.advice.verdict === now.advice.verdict && then.advice.first === now.advice.first) continue;
        moving += Math.exp(then.told.logEvidence - now.told.logEvidence);
        if (moving >= LEAST_MOVING) return true;
      }
      return false;
    })?.question;
}

/** Places of answers, the likeliest first. */
function byChance(chances: readonly number[]): number[] {
  return [...chances.keys()].sort((a, b) => chances[b]! - chances[a]! || a - b);
}

/** Belief after a round's trials, and what each of them did to every cause. */
export function ride(
  model: Model,
  bench: PreparedBike,
  start: Belief,
  round: Round,
  unplaced: Deed[],
): { belief: Belief; trials: TrialEffect[]; seen: TrialSeen[] } {
  let belief = start;
  const trials: TrialEffect[] = [];
  const seen: TrialSeen[] = [];
  for (const result of round.results) {
    const after = afterResult(model, bench, belief, result);
    if (after === undefined) {
      unplaced.push(result.change);
      continue;
    }
    const before = belief.causes;
    const told = Math.exp(after.logEvidence - belief.logEvidence);
    const decibans = after.causes.map((p, c) => logOdds(p) - logOdds(before[c]!));
    belief = after;
    seen.push({ idle: seenOf(model, result).nothing, told });
    trials.push({ change: result.change, outcome: result.outcome, decibans });
  }
  return { belief, trials, seen };
}
