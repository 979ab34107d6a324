/**
 * What began with a change: undoing that change takes away what such a change brings. The rules say which answers put it
 * first, and the one of them that was given with a choice says which change it was and what that brings.
 */
import type { PreparedBike } from '../advice/prepared-bike.ts';
import { prospectOf } from '../advice/help-harm.ts';
import { undoneBy, withBrought, type Undone } from '../advice/undoing.ts';
import type { ChangeEffect } from '../diagnosis/results.ts';
import type { Model } from '../diagnosis/model.ts';
import type { Consultation } from './consult.ts';

/** The change that is undone first, by its answers; none where the first step is another. */
function undoneFirst(
  model: Model,
  { advice, back, heard }: Pick<Consultation, 'advice' | 'back' | 'heard'>,
): Undone[] {
  if (back !== undefined || advice.first === undefined) return [];
  return undoneBy(model, model.rules.adjustments[advice.first]!, heard.known);
}

/** The bike on which the first step, where it undoes what it began with, cures what that change brings. */
export function withUndone(model: Model, bench: PreparedBike, c: Consultation): PreparedBike {
  const first = c.advice.first;
  const effect = first === undefined ? undefined : effectUndone(model, bench, c, first);
  if (effect === undefined) return bench;
  const prospect = prospectOf(model, effect);
  return {
    ...bench,
    effect: (index) => (index === first ? effect : bench.effect(index)),
    prospect: (index) => (index === first ? prospect : bench.prospect(index)),
  };
}

/** What the first step does where it undoes something; undefined where it undoes nothing, or nobody knows at which end. */
function effectUndone(
  model: Model,
  bench: PreparedBike,
  c: Consultation,
  first: number,
): ChangeEffect | undefined {
  if (c.back !== undefined && model.rules.adjustments[first]!.kind === 'put-back') {
    const [was, ...others] = c.back.effects;
    return others.length > 0 ? undefined : { cures: was!.brings, brings: was!.cures };
  }
  const undone = undoneFirst(model, c);
  const own = bench.effect(first);
  return undone.length === 0 ? undefined : { ...own, cures: withBrought(own.cures, undone) };
}

/** `bars, stem, levers or grips`; undefined where the first step undoes no change that was named. */
export function undoneWords(model: Model, c: Consultation): string | undefined {
  const words = undoneFirst(model, c).flatMap(({ question, answers }) =>
    answers.map((i) => question.answers[i]!.text),
  );
  return words.length === 0 ? undefined : words.join('; ');
}
