/**
 * Strengths from several heads: each estimated, apart from the others, how often a rider gives an answer with one cause
 * off, or with none (`base`). Pooled in log odds; how far they lie apart says which links are disputed.
 *
 * Pooling by the mean of the log odds is the geometric pool of experts' odds (Satopää et al. 2014, from memory).
 */
import type { Strength } from './strengths.ts';

/** question → sign → cause or `base` → percent of each head, in the same order; 0 where a head did not name the cause. */
export type Estimates = Readonly<
  Record<string, Readonly<Record<string, Readonly<Record<string, readonly number[]>>>>>
>;

export interface Pooled {
  /** as `strengthsOf` names it: question, sign, and the cause or `usually` */
  readonly id: string;
  readonly percents: readonly number[];
  /** P(answer | the cause alone, or nothing), 0..1 */
  readonly pooled: number;
  /** the same as a strength of the rules: a link leaves out what the base rate brings by itself */
  readonly strength: number;
  /** standard deviation of the heads' log odds, in nats */
  readonly spread: number;
}

/** No head is surer than this of anything, in percent. */
const SUREST = 1;

/** @throws RangeError when not as many heads spoke of each cause of a sign */
export function pool(estimates: Estimates): Pooled[] {
  return Object.entries(estimates).flatMap(([question, signs]) =>
    Object.entries(signs).flatMap(([sign, causes]) => {
      const heads = Math.max(...Object.values(causes).map((list) => list.length));
      if (Object.values(causes).some((list) => list.length !== heads))
        throw new RangeError(`${question} ${sign}: every line needs an estimate of each head.`);
      // A sign without a base never comes by itself.
      const base = causes['base'] ?? Array.from({ length: heads }, () => SUREST);
      const usually = expit(mean(base.map(logit)));
      return Object.entries(causes).map(([cause, percents]): Pooled => {
        // A cause that a head did not name does nothing, in that head's eyes: the sign comes as often as ever.
        const odds = percents.map((p, i) => logit(p > 0 ? p : base[i]!));
        const pooled = expit(mean(odds));
        return {
          id: `${question} ${sign} ${cause === 'base' ? 'usually' : cause}`,
          percents,
          pooled,
          strength: cause === 'base' ? pooled : Math.max(0, (pooled - usually) / (1 - usually)),
          spread: deviation(odds),
        };
      });
    }),
  );
}

export interface Disputed extends Pooled {
  /** the strength the rules have, 0..1; undefined where no rule says it */
  readonly inRules: number | undefined;
}

/** The links, most disputed first. */
export function disputed(estimates: Estimates, strengths: readonly Strength[]): Disputed[] {
  const known = new Map(strengths.map((s) => [s.id, s.value]));
  return pool(estimates)
    .map((p) => ({ ...p, inRules: known.get(p.id) ?? known.get(forBothEnds(p.id)) }))
    .sort((a, b) => b.spread - a.spread || (a.id < b.id ? -1 : 1));
}

/** A link that a head told of one end alone, as a rule says it of both: `{end}.lever.closed` of `rear.lever.closed@rear`. */
function forBothEnds(id: string): string {
  return id.replace(/(?<= )(front|rear)\.(\S+)@\1$/, '{end}.$2');
}

function logit(percent: number): number {
  const p = Math.min(100 - SUREST, Math.max(SUREST, percent)) / 100;
  return Math.log(p / (1 - p));
}

function expit(x: number): number {
  return 1 / (1 + Math.exp(-x));
}

function mean(list: readonly number[]): number {
  return list.reduce((s, x) => s + x, 0) / list.length;
}

function deviation(list: readonly number[]): number {
  const m = mean(list);
  return Math.sqrt(list.reduce((s, x) => s + (x - m) ** 2, 0) / Math.max(1, list.length - 1));
}
