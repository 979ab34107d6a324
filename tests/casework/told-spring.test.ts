/** The kind of spring at an end, as what was told of it says. */
import { describe, expect, it } from 'vitest';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import { saidOf } from '../../src/bike/form/said.ts';
import type { Tried } from '../../src/casework/case.ts';
import { withToldSprings } from '../../src/casework/told-spring.ts';
import { caseOf, model, rules } from '../support/told.ts';

const SAME = { result: 'same', putBack: 'no' } as const;
const tell = (tried: readonly Tried[], answers: Readonly<Record<string, string>> = {}) =>
  withToldSprings(rules, caseOf(answers, { tried }));

describe('the spring that was told of', () => {
  it.each([
    ['psi', { setting: 'rear.spring', direction: 'more', by: 10, unit: 'psi' }, 'air'],
    [
      'pressure by its other name',
      { setting: 'pressure', end: 'rear', direction: 'more', by: 1, unit: 'bar' },
      'air',
    ],
    ['spacers', { setting: 'rear.ramp-up', direction: 'more', by: 2, unit: 'spacers' }, 'air'],
    [
      'turns of preload',
      { setting: 'preload', end: 'rear', direction: 'more', by: 1, unit: 'turns' },
      'coil',
    ],
    ['the pressure of a tyre', { setting: 'rear.tyre', direction: 'more', by: 2, unit: 'psi' }, undefined],
    ['a spring that nobody counted', { setting: 'rear.spring', direction: 'more' }, undefined],
  ] as const)('is that of %s, at its end alone', (_, tried, kind) => {
    const said = tell([{ ...SAME, ...tried }]);
    expect(said?.ends.rear.toldSpring).toBe(kind);
    expect(said?.ends.front.toldSpring).toBeUndefined();
  });

  it('is left open where both kinds were told of', () => {
    const both = [
      { ...SAME, setting: 'rear.spring', direction: 'more', by: 10, unit: 'psi' },
      { ...SAME, setting: 'rear.spring', direction: 'more', by: 2, unit: 'turns' },
    ];
    expect(tell(both)).toBeUndefined();
  });

  it('is said by a sign that only one kind has, and not by what anybody answers who notices nothing', () => {
    const asked = rules.questions.find(
      ({ gates, end }) =>
        end === 'rear' &&
        gates.some(({ on, id, values }) => on === 'bike' && id === 'rear.spring' && values.join() === 'air'),
    )!;
    const [usual, sign] = [
      asked.answers[asked.default]!.id,
      asked.answers.find((_, i) => i !== asked.default)!.id,
    ];
    expect(tell([], { [asked.id]: sign })?.ends.rear.toldSpring).toBe('air');
    for (const answer of [usual, 'cannot-tell']) expect(tell([], { [asked.id]: answer })).toBeUndefined();
  });

  it('leaves no step for the other kind, and takes nothing else from the bike', () => {
    const has = saidOf({ rear: { rebound: 'one' } }, rules.adjusters).bike!;
    const kase = caseOf(
      {},
      { tried: [{ ...SAME, setting: 'rear.spring', direction: 'more', by: 10, unit: 'psi' }] },
    );
    const bench = prepareBike(
      model,
      undefined,
      undefined,
      undefined,
      withToldSprings(rules, { ...kase, has: { raw: {}, bike: has } })!,
    );
    const bare = prepareBike(model, undefined, undefined, undefined, withToldSprings(rules, kase)!);
    const can = (of: typeof bench, id: string): boolean =>
      of.possible[rules.adjustments.findIndex((a) => a.id === id)]!.can;
    expect(bench.fact('rear.spring')).toBe('air');
    expect(can(bench, 'rear.spring.softer')).toBe(true);
    const coil = rules.adjustments.filter(
      ({ end, needs }) => end === 'rear' && Object.values(needs).flat().join() === 'coil',
    );
    expect(coil.length).toBeGreaterThan(1);
    for (const { id } of coil) expect([can(bench, id), can(bare, id)]).toEqual([false, false]);
    expect([can(bench, 'rear.compression.low.open'), can(bare, 'rear.compression.low.open')]).toEqual([
      false,
      true,
    ]);
  });
});
