/** What is warned of while a cause is likely. */
import { describe, expect, it } from 'vitest';
import { whileLikely } from '../../src/advice/cautions.ts';
import { model } from '../support/told.ts';

const { space, rules } = model;
const LOW = model.causeIndex.get('rear.rebound.low.too-fast')!;
const HIGH = model.causeIndex.get('rear.rebound.high.too-fast')!;
const TIRED = model.causeIndex.get('rider.fatigue.tired')!;

/** The number of the set with just these causes. */
function setOf(...causes: number[]): number {
  const wanted = causes.toSorted((a, b) => a - b);
  for (let set = 0; set < space.size; set++) {
    const held: number[] = [];
    for (let h = set; h > 0; h = space.parent[h]!) held.unshift(space.last[h]!);
    if (held.length === wanted.length && held.every((cause, i) => cause === wanted[i])) return set;
  }
  throw new Error(`no set ${wanted.join(', ')}`);
}

/** A belief in a few sets, the rest on nothing off. */
function beliefIn(sets: readonly (readonly [causes: readonly number[], chance: number])[]) {
  const weights = new Float64Array(space.size);
  const causes = new Float64Array(space.causes);
  weights[0] = 1;
  for (const [held, chance] of sets) {
    weights[setOf(...held)] = chance;
    weights[0] -= chance;
    for (const cause of held) causes[cause]! += chance;
  }
  return { weights, causes };
}

const warned = (...args: Parameters<typeof beliefIn>): string[] => whileLikely(model, beliefIn(...args), 0);

describe('the caution of what is likely', () => {
  it('is said from the threshold of the pack on, and not below', () => {
    expect(rules.numbers.advice['warn-likely']).toBe(0.5);
    expect(warned([[[LOW], 0.5]])).toEqual(['rear.fast-return']);
    expect(warned([[[LOW], 0.49]])).toEqual([]);
  });
  it('counts both circuits of one end together', () => {
    expect(warned([[[LOW], 0.3], [[HIGH], 0.25]])).toEqual(['rear.fast-return']); // prettier-ignore
  });
  it('counts what both are in once', () => {
    // Each 0.4 and 0.3, but either only 0.4.
    expect(warned([[[LOW], 0.1], [[LOW, HIGH], 0.3]])).toEqual([]); // prettier-ignore
  });
  it('gives way to what the rules do not know', () => {
    expect(whileLikely(model, beliefIn([[[LOW], 0.6]]), 0.2)).toEqual([]);
  });
  it('is one for each that is likely', () => {
    expect(warned([[[LOW, TIRED], 0.7]])).toEqual(['rear.fast-return', 'rest']);
  });
});
