/** Whether one thing explains two answers: nothing off, a single cause, or two that are likely together. */
import { factorOf, type Evidence } from './belief.ts';
import type { Posterior } from './fast/class-marginals.ts';
import type { Group } from './groups.ts';
import type { Model } from './model.ts';
import type { Numbers } from '../rulebase/numbers-schema.ts';

/** An answer, and the group it is weighed in. */
export interface Told {
  readonly group: number;
  readonly evidence: Evidence;
}

/** One or two causes that may be off; none of them: nothing is. */
type Causes = readonly number[];

/**
 * Two answers fit together where some h gives them jointly at least `explains` of what each has from h alone and the other
 * from the single cause that brings it most often: P(a,b|h) ≥ e·P(a|h)·max P(b|·), and the same the other way round. So
 * h must bring each of them nearly as often as anything does.
 *
 * Two causes always explain two answers, one each. So of these only such count as the whole story leaves `likely-pair`.
 */
export function togetherIn(
  model: Model,
  posterior: Posterior,
  { explains, 'likely-pair': likely }: Numbers['fit'],
): (a: Told, b: Told) => boolean {
  const all: Causes[] = [
    [],
    ...Array.from({ length: model.space.causes }, (_, cause) => [cause]),
    ...likelyPairs(model, posterior, likely),
  ];
  const alone = new Map<Told, { readonly factor: Float64Array; readonly best: number }>();
  const aloneOf = (told: Told) => {
    let known = alone.get(told);
    if (known === undefined) {
      const { factor } = factorOf(model, told.group, [told.evidence]);
      const { singles } = model.groups[told.group]!.classes;
      known = { factor, best: Math.max(factor[0]!, ...Array.from(singles, (c) => factor[c]!)) };
      alone.set(told, known);
    }
    return known;
  };
  return (a, b) => {
    const [one, other] = [aloneOf(a), aloneOf(b)];
    const [groupA, groupB] = [model.groups[a.group]!, model.groups[b.group]!];
    const joint =
      a.group === b.group ? factorOf(model, a.group, inOrder(a.evidence, b.evidence)).factor : undefined;
    return all.some((h) => {
      const [hereA, hereB] = [classIn(groupA, h), classIn(groupB, h)];
      const [pA, pB] = [one.factor[hereA]!, other.factor[hereB]!];
      const both = joint?.[hereA] ?? pA * pB;
      return both >= explains * Math.max(pA * other.best, one.best * pB);
    });
  };
}

function inOrder(a: Evidence, b: Evidence): Evidence[] {
  return a.question < b.question ? [a, b] : [b, a];
}

/** Which class of a group these causes are. */
function classIn({ classes: { own, singles, pairs } }: Group, causes: Causes): number {
  const at = causes.map((cause) => own.indexOf(cause)).filter((place) => place >= 0);
  const [first, second] = at;
  if (first === undefined) return 0;
  if (second === undefined) return singles[first]!;
  return pairs[Math.min(first, second) * own.length + Math.max(first, second)]!;
}

/** @param least of all sets, that this share holds both */
function likelyPairs({ space }: Model, { containing }: Posterior, least: number): Causes[] {
  const out: Causes[] = [];
  for (let set = 0; set < space.size; set++)
    if (space.depth[set] === 2 && containing[set]! >= least)
      out.push([space.last[space.parent[set]!]!, space.last[set]!]);
  return out;
}
