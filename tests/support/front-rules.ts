/**
 * A front end of two circuits, a spring and a seal: a knob both ways, the rungs after it, a repair, a gate and a danger;
 * and beliefs about it.
 */
import { marginals } from '../../src/diagnosis/hypotheses.ts';
import type { Belief } from '../../src/diagnosis/belief.ts';
import { findSet } from '../../src/diagnosis/hypotheses.ts';
import { buildModel, type Model } from '../../src/diagnosis/model.ts';
import { rulesOf } from './compile-text.ts';

const setting = (id: string, kind: string, directions: string): string => `
  - id: ${id}
    name: ${id}
    plain: ${id}
    kind: ${kind}
    directions: {${directions}}
    source: common-practice
    status: trial`;

const cause = (id: string): string => `${id}: {name: ${id}, plain: ${id}, prior: sometimes}`;

const adjustment = (id: string, kind: string, minutes: number, rest: string): string => `
  - id: ${id}
    do: do ${id}
    plain: do ${id}
    kind: ${kind}
    minutes: ${minutes}
    way-back: undo it
    feel: whether it helps
    cautions: []
    source: common-practice
    status: trial
    ${rest.split('\n').join('\n    ')}`;

const question = (id: string, pointsTo: string, rest = ''): string => `
  - id: ${id}
    ask: ${id}?
    plain: ${id}?
    help: Ride a row.
    minutes: 0.3
    topic: ${id}
    answers: {'no': 'no', 'yes': 'yes'}
    default: 'no'
    when-several: cancel
    usually: {'yes': rarely}
    points-to: {${pointsTo}}
    confusable-with: [{id: front.spring.too-soft, tell: measure the sag}]
    source: common-practice
    status: trial
    ${(rest.includes('how:') ? rest : `how: recall\n${rest}`).split('\n').join('\n    ')}`;

const low = 'front.rebound.low';
const high = 'front.rebound.high';
const RULES = `
settings:${setting(low, 'damper', `${cause('too-slow')}, ${cause('too-fast')}`)}
    partner: ${high}
    adjuster: rebound.low${setting(high, 'damper', `${cause('too-slow')}, ${cause('too-fast')}`)}
    partner: ${low}
    adjuster: rebound.high${setting('front.spring', 'spring', `${cause('too-soft')}, ${cause('too-firm')}`)}${setting('front.seals', 'condition', cause('worn'))}
questions:${question('packs', `'yes': {"${low}.too-slow": usually}`)}${question('packs-deep', `'yes': {"${high}.too-slow": often}`, `only-if: {packs: ['yes']}`)}${question('loose', "'yes': {front.seals.worn: often}", "how: stand\nsafety: true\ndangerous: {'yes': loose}")}
adjustments:${adjustment(`${low}.open`, 'click', 1, `change: {setting: ${low}, by: 2, unit: clicks}\nmoves: {"${low}": too-fast}\nnext: [${low}.softer-rebuild, front.rebuild]`)}${adjustment(`${low}.close`, 'click', 1, `change: {setting: ${low}, by: -2, unit: clicks}\nmoves: {"${low}": too-slow}`)}${adjustment(`${low}.softer-rebuild`, 'rebuild', 60, `moves: {"${low}": {toward: too-fast, share: 0.2}}`)}${adjustment('front.rebuild', 'rebuild', 60, `moves: {"${low}": {toward: too-fast, share: 0.5}}`)}${adjustment('front.spring.softer', 'pressure', 10, 'change: {setting: front.spring, by: -5, unit: psi}\nneeds: {front.spring: air}\nmoves: {front.spring: too-soft}')}${adjustment('front.seals.service', 'repair', 90, 'fixes: {front.seals.worn: 1}')}
cautions:
  - {id: loose, level: stop, text: Do not ride it., show: with, source: common-practice, status: trial}
`;

export const model = buildModel(rulesOf({ 'a.yaml': RULES }));

export const adjustmentOf = (id: string): number => model.rules.adjustments.findIndex((a) => a.id === id);
export const idsOf = (ranked: readonly { readonly adjustment: number }[]): string[] =>
  ranked.map((r) => model.rules.adjustments[r.adjustment]!.id);

/** A belief from the probability of some sets of causes, by id with blanks between; what is left is on nothing off. */
export function believing(sets: Readonly<Record<string, number>>, of: Model = model): Belief {
  const weights = new Float64Array(of.space.size);
  weights[0] = 1;
  for (const [ids, p] of Object.entries(sets)) {
    const causes = ids.split(' ').map((id) => of.causeIndex.get(id)!);
    weights[
      findSet(
        of.space,
        causes.sort((a, b) => a - b),
      )
    ]! += p;
    weights[0] -= p;
  }
  const causes = marginals(
    of.space,
    weights,
    new Float64Array(of.space.size),
    new Float64Array(of.space.causes),
  );
  return { weights, causes, nothing: weights[0]!, logEvidence: 0 };
}
