/** One case, thought through: belief, advice, what to ask next, how well it hangs together. */
import type { Advice } from '../advice/advise.ts';
import type { InVain } from '../advice/refused.ts';
import { blocked, type Blocked } from '../advice/rungs.ts';
import { likeliestCured } from '../advice/help-harm.ts';
import type { Deed } from '../bike/deed.ts';
import type { PreparedBike } from '../advice/prepared-bike.ts';
import { stopReason, type StopReason } from '../advice/stop.ts';
import { cannotLook, checksOf, heardNothing } from '../advice/checks.ts';
import { update, type Belief } from '../diagnosis/belief.ts';
import { effects, type AnswerEffect } from '../diagnosis/explain.ts';
import { fitOf, type Fit } from '../diagnosis/fit.ts';
import type { Gain } from '../diagnosis/inquiry.ts';
import type { Model } from '../diagnosis/model.ts';
import { posteriorOf } from '../diagnosis/fast/class-marginals.ts';
import type { Said, Stood, TrialSeen } from './beside.ts';
import type { Case } from './case.ts';
import { heardOnce, roundsOfCase, standsFrom } from './retold.ts';
import { asksSpring, earlyFirst, isEarly, saysWhere } from './asking/early.ts';
import type { Heard } from './evidence.ts';
import { isListed, leading } from './leading.ts';
import { modelFor } from './rider.ts';
import { averagedOf, mayMove, ride, think, type Scratch, type TrialEffect } from './think.ts';
import { backBefore } from './tried/back-before.ts';
import { triedOnce } from './tried/told-once.ts';
import { weighTried, type TriedBefore, type TriedEffect } from './tried/weigh-tried.ts';
import { askedOf, rankOpen, onSheet } from './asking/rank-open.ts';

export interface Wishes {
  /** rank the open questions */
  readonly next: boolean;
  /** the effect of every answer on this many leading causes, those left out that no result lists */
  readonly explain: number;
  readonly fit: boolean;
  /** the topic of the last question, for an interview that stays on it */
  readonly lastTopic?: string | undefined;
  readonly keepAsking?: boolean;
  /** leave out the questions put off: open, but not asked now */
  readonly skipPutOff?: boolean;
  /** for a short text, which looks at little of it: the question asked first alone, and why the first change */
  readonly sparing?: boolean;
  /** for a batch that looks at one consultation at a time: arrays as long as the space, written over by each */
  readonly room?: Room;
}

/** The posterior goes into the weights. */
interface Room extends Scratch {
  /** the probability of the sets that contain each */
  readonly containing: Float64Array<ArrayBuffer>;
}

export function roomFor({ space }: Model): Room {
  return {
    weights: new Float64Array(space.size),
    causes: new Float64Array(space.causes),
    containing: new Float64Array(space.size),
  };
}

export interface Consultation {
  readonly heard: Heard;
  /** after the answers and the trials */
  readonly belief: Belief;
  /** causes by falling probability */
  readonly ranked: readonly number[];
  readonly advice: Advice;
  /** the bike with the steps that are named after what was tried and ridden */
  readonly cut: PreparedBike;
  readonly blocked: readonly Blocked[];
  readonly open: readonly Gain[];
  /** whether the first of them is asked at once, whatever it promises: what was said or tried calls for it */
  readonly pressing: boolean;
  /** chance that the causes are not behind the answers; the belief is what holds if they are */
  readonly none: number;
  /** of that, the chance of one impression told throughout; the rest is something that the rules do not know */
  readonly impression: number;
  /** belief averaged over riders who follow their complaint and those who do not; to be asked for before the room is used again */
  readonly averaged: () => Belief;
  /** whether what is claimed was looked at on the bike, or nothing so large is claimed */
  readonly checked: boolean;
  /** whether the next question is only asked because so much is claimed */
  readonly looking: boolean;
  readonly stop: StopReason | undefined;
  readonly fit: Fit | undefined;
  readonly evidence: ReadonlyMap<number, readonly AnswerEffect[]>;
  /** of the bike as it stands, in whichever round they were ridden */
  readonly trials: readonly TrialEffect[];
  /** what was tried before the answers */
  readonly tried: Pick<TriedBefore, 'effects' | 'left'>;
  /** of that, what is to be put back */
  readonly back?: TriedEffect;
  /** what made no difference, is still on the bike, and goes back before the first step */
  readonly before: readonly TriedEffect[];
  /** steps that were ridden on the bike as it stands and rated no better, by index of the adjustment */
  readonly ridden?: ReadonlyMap<number, InVain>;
  /** changes of `results` that the rules cannot place */
  readonly unplaced: readonly Deed[];
}

/** @param pack the model of the rules; where the rider is known from earlier rounds, it is shifted to him */
export function consult(pack: Model, bench: PreparedBike, told: Case, wishes: Wishes): Consultation {
  const model = modelFor(pack, bench, told);
  const kase = triedOnce(model, bench, told);
  const unplaced: Deed[] = [];
  let prior = bench.prior;
  const rounds = roundsOfCase(told);
  const counted = kase.earlier.length === 0 ? [] : heardOnce(model, bench.fact, rounds);
  const from = standsFrom(rounds);
  const said: Said[] = [];
  const seen: TrialSeen[] = [];
  const tested: TrialEffect[] = [];
  for (const [i, round] of kase.earlier.entries()) {
    const evidence = counted[i]!;
    const before = update(model, weighTried(model, bench, prior, round).weights, evidence);
    const ridden = ride(model, bench, before, round, unplaced);
    prior = ridden.belief.weights;
    if (i < from) continue;
    said.push({ evidence, underCauses: before.logEvidence });
    seen.push(...ridden.seen);
    tested.push(...ridden.trials);
  }
  const stood: Stood = { said, seen };
  const first = think(model, bench, prior, kase, { room: wishes.room, unplaced, stood });
  const {
    heard,
    told: answered,
    belief,
    trials,
    tried,
    back,
    left,
    none,
    impression,
    advice,
    ridden,
  } = first;
  // One impression is what the looks are for: it must not take away the claim that asks for them.
  const checks = checksOf(model, belief, heard.evidence, none - impression, onSheet(bench));
  // Effects and fit speak of the answers, the next question of what is believed after the trials.
  const posterior =
    wishes.explain > 0 || wishes.fit || wishes.next
      ? posteriorOf(model, answered, wishes.room?.containing)
      : undefined;
  const now = belief === answered ? posterior : wishes.next ? posteriorOf(model, belief) : undefined;
  // What was said, and what is not known, looks at more than the question asked first.
  const sparing = wishes.sparing === true && kase.said === undefined && advice.verdict !== 'unknown';
  const ranking = wishes.next
    ? earlyFirst(
        model,
        rankOpen(model, now!, heard, onSheet(bench), {
          ...wishes,
          sparing,
          inOwnWords: kase.said !== undefined,
        }),
        heard.known,
        tried.effects,
      )
    : [];
  const pressing = ranking.length > 0 && isEarly(model, ranking[0]!.question, heard.known, tried.effects);
  // Where a change is advised already, a question that may put another in its place goes first.
  let mover: number | undefined;
  const safetyOpen = pressing || ranking.some((g) => model.rules.questions[g.question]!.safety);
  const asked = askedOf(model, kase.answers) - heard.putOff.length;
  const why = wishes.next
    ? stopReason(model.rules.numbers, {
        dangerous:
          heard.dangers.length > 0 && !(ranking[0] && saysWhere(model, ranking[0].question, heard.known)),
        worthKnowing: advice.worthKnowing,
        bits: Math.max(0, ...ranking.map((g) => g.bits)),
        safetyOpen,
        asked,
        keepAsking: wishes.keepAsking ?? false,
        heardNothing: () =>
          heardNothing(model, belief, heard.evidence, none - impression, kase.said !== undefined),
        moves: () =>
          advice.verdict !== 'change' ||
          (mover = mayMove(model, bench, prior, kase, { now: first, stood, ranking })) !== undefined,
      })
    : undefined;
  // Before a large claim the looks come that could speak against it, however little they promise.
  const { checks: least, 'most-questions': most } = model.rules.numbers.asking;
  const lastChance = why === undefined && !safetyOpen && asked >= most - least && wishes.keepAsking !== true;
  const mayLook =
    !checks.done &&
    (lastChance || why === 'enough' || why === 'settled' || why === 'dry') &&
    !cannotLook(model, heard.cannotTell, checks);
  const looks = mayLook ? ranking.filter((g) => checks.wanted(model.rules.questions[g.question]!)) : [];
  // A part that only one kind of spring has is named once it is known which kind it is.
  const kind = why === undefined || why === 'danger' ? undefined : asksSpring(model, bench, advice, ranking);
  const early =
    kind !== undefined
      ? [kind]
      : mover === undefined || looks.length > 0
        ? looks
        : ranking.filter((g) => g.question === mover);
  const open = early.length === 0 ? ranking : [...early, ...ranking.filter((g) => !early.includes(g))];
  const shown =
    wishes.sparing === true
      ? whyOf(first.cut, belief, advice).slice(0, wishes.explain)
      : leading(belief.causes, wishes.explain).filter((cause, rank) => isListed(belief.causes[cause]!, rank));
  let ranked: readonly number[] | undefined;
  let averaged: Belief | undefined;
  return {
    heard,
    belief,
    get ranked() {
      return (ranked ??= leading(belief.causes));
    },
    advice,
    cut: first.cut,
    blocked: blocked({ model, bench, belief, known: heard.known, ridden }),
    open,
    pressing,
    none,
    impression,
    averaged: () => (averaged ??= averagedOf(model, bench, kase, first)),
    checked: checks.done,
    looking: looks.length > 0,
    stop: looks.length > 0 || kind !== undefined ? undefined : why,
    fit: wishes.fit ? fitOf(model, posterior!, heard.evidence, model.rules.numbers.fit) : undefined,
    evidence: shown.length > 0 ? effects(model, answered, posterior!, heard.evidence, shown) : new Map(),
    trials: [...tested, ...trials],
    tried,
    ...(back === undefined ? {} : { back }),
    before: backBefore({ model, bench: first.cut, belief, known: heard.known }, left, advice),
    ...(ridden === undefined ? {} : { ridden }),
    unplaced,
  };
}

/** The causes that may be given for the first change: the likeliest that it cures, and the likeliest of all. */
function whyOf(bench: PreparedBike, belief: Belief, { verdict, first }: Advice): number[] {
  if (verdict !== 'change' || first === undefined) return [];
  const cured = likeliestCured(bench, belief, first);
  return [...new Set([...(cured === undefined ? [] : [cured]), ...leading(belief.causes, 1)])];
}
