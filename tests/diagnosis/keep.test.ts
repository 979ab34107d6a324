import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { readFileSync } from 'node:fs';
import { workOut } from '../../src/casework/work-out.ts';
import { readStamp } from '../../src/workspace/rules/built-in.ts';
import { BUILT_NUMBERS } from '../../src/workspace/rules/precomputed.ts';
import { BUILT_PHYSICS } from '../../src/workspace/rules/built-in.ts';
import { fromBytes, keepFrom, toBytes, type NamedNumbers } from '../../src/diagnosis/fast/precomputed.ts';
import { baseRules } from '../support/base-rules.ts';
import { bitsOf } from '../support/bits.ts';

const numbers = fc.oneof(
  fc.array(fc.double()).map((list) => Float64Array.from(list)),
  fc.array(fc.maxSafeInteger()).map((list) => Int32Array.from(list)),
  fc.array(fc.nat()).map((list) => Int16Array.from(list)),
  fc.array(fc.nat()).map((list) => Uint8Array.from(list)),
);
const name = fc.string().filter((text) => text !== '__proto__');
const named = fc.dictionary(name, numbers);
const refuse = (): never => {
  throw new Error('made anew');
};
const block = (stamp: string, all: ReadonlyMap<string, NamedNumbers>): Uint8Array<ArrayBuffer> =>
  Uint8Array.from(toBytes(stamp, all));

describe('numbers that are kept', () => {
  test('come back as they were, to the last bit', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(name, named)), fc.string(), (list, stamp) => {
        const all = new Map(list);
        const keep = keepFrom(() => fromBytes(stamp, block(stamp, all)));
        for (const [known, arrays] of all) expect(keep(known, refuse)).toEqual({ ...arrays });
      }),
    );
  });
  it('are made anew where nothing of the name is kept', () => {
    const keep = keepFrom(() => fromBytes('s', block('s', new Map())));
    expect(keep('a', () => ({ x: Uint8Array.of(7) }))).toEqual({ x: Uint8Array.of(7) });
  });
  it('tell what had to be made, and have it the next time', () => {
    const made = new Map<string, NamedNumbers>();
    const keep = keepFrom(() => fromBytes('s', block('s', new Map([['a', { x: Uint8Array.of(1) }]]))), made);
    expect(keep('a', refuse)).toEqual({ x: Uint8Array.of(1) });
    keep('b', () => ({ x: Uint8Array.of(2) }));
    expect([...made]).toEqual([['b', { x: Uint8Array.of(2) }]]);
    expect(keep('b', refuse)).toEqual({ x: Uint8Array.of(2) });
  });
  it('are nobody else’s: another stamp, a torn block or no block at all gives none', () => {
    const whole = block('s', new Map([['a', { x: Float64Array.of(1, 2) }]]));
    expect(fromBytes('t', whole)).toBeUndefined();
    expect(fromBytes('s', new Uint8Array(0))).toBeUndefined();
    expect(fromBytes('s', whole.slice(0, 10))).toBeUndefined();
    for (let cut = 1; cut < 16; cut++)
      expect(fromBytes('s', whole.slice(0, whole.length - cut))).toBeUndefined();
  });
  it('of the build are those of the rules, and all there are', () => {
    const { rules } = baseRules();
    const all = workOut(rules, JSON.parse(readFileSync(BUILT_PHYSICS, 'utf8')));
    const built = Uint8Array.from(readFileSync(BUILT_NUMBERS));
    const keep = keepFrom(() => fromBytes(readStamp().digest, built));
    expect(all.size).toBeGreaterThan(300);
    for (const [known, arrays] of all) expect(bitsOf(keep(known, refuse)), known).toBe(bitsOf(arrays));
  });
});
