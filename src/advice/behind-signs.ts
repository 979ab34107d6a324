/** What is behind some signs, by how much each cause has to do with them, and how much of it an adjustment cures. */
import type { Belief, Evidence } from '../diagnosis/belief.ts';
import type { Model } from '../diagnosis/model.ts';
import type { Question } from '../rulebase/compiled.ts';
import type { PreparedBike } from './prepared-bike.ts';

export interface Behind {
  /** by cause: its links to the signs, times its probability */
  readonly weights: Float64Array;
  /** their sum; 0 where nothing is behind them */
  readonly all: number;
}

type Signs = readonly Pick<Evidence, 'question' | 'answer'>[];

export function behindSigns(
  { rules: { questions } }: Model,
  { causes }: Pick<Belief, 'causes'>,
  signs: Signs,
): Behind {
  return weighed(linksTo(questions, signs, causes.length), causes);
}

const known = new WeakMap<Signs, { readonly questions: readonly Question[]; readonly links: Float64Array }>();

/** By cause: its links to the signs, added up; the same whatever is believed, so that of the same signs it is kept. */
function linksTo(questions: readonly Question[], signs: Signs, causes: number): Float64Array {
  const before = known.get(signs);
  if (before?.questions === questions) return before.links;
  const links = new Float64Array(causes);
  for (const { question, answer } of signs)
    // Of a sign whose end is not known, what brings it at either.
    for (const at of questions[question]!.either ?? [question]) addLinks(links, questions[at]!, answer);
  if (before === undefined) known.set(signs, { questions, links });
  return links;
}

/** Share of what is behind the signs that an adjustment cures, 0..1; there must be something behind them. */
export function curedShare(bench: PreparedBike, { weights, all }: Behind, adjustment: number): number {
  return curedOf(weights, bench.effect(adjustment).cures) / all;
}

/** What an adjustment leaves of it. */
export function leftBehind(bench: PreparedBike, { weights }: Behind, adjustment: number): Behind {
  const { cures } = bench.effect(adjustment);
  const left = weights.map((weight, cause) => weight * (1 - Math.min(1, cures[cause]!)));
  return { weights: left, all: left.reduce((sum, weight) => sum + weight, 0) };
}

/*
 * Loops by themselves over plain numbers, so that no more is compiled where they are found worth it: a look ahead repeats
 * them some sixty times.
 */

function addLinks(to: Float64Array, { links }: Question, sign: number): void {
  for (let i = 0; i < links.length; i++) {
    const link = links[i]!;
    if (link[1] === sign) to[link[0]]! += link[2];
  }
}

function weighed(links: Float64Array, causes: Float64Array): Behind {
  const weights = new Float64Array(links.length);
  let all = 0;
  for (let c = 0; c < weights.length; c++) all += weights[c] = links[c]! * causes[c]!;
  return { weights, all };
}

function curedOf(weights: Float64Array, cures: ArrayLike<number>): number {
  let sum = 0;
  for (let c = 0; c < weights.length; c++) sum += weights[c]! * Math.min(1, cures[c]!);
  return sum;
}
