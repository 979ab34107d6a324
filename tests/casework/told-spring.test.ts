/** The kind of spring at an end, as what was told of it says. */
import { describe, expect, it } from 'vitest';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import { saidOf } from '../../src/bike/form/said.ts';
import type { CaseAnswer, Tried } from '../../src/casework/case.ts';
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
    ['air that nobody counted', { setting: 'rear.spring', direction: 'more', unit: 'psi' }, 'air'],
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

  it('is air where its pressure was read, by itself or beside the sag, and a coil where its rate was', () => {
    const read = (question: string, measured: CaseAnswer['measured']) =>
      withToldSprings(rules, {
        answers: [
          { question, answer: 'under', sure: 'sure', ...(measured === undefined ? {} : { measured }) },
        ],
      })?.ends.rear.toldSpring;
    const [psi, sag] = [6894.757, { value: 0.2, unit: '%', band: [0.23, 0.32] }] as const;
    expect(read('sag@rear', { ...sag, at: { pressure: 150 * psi, unit: 'psi' } })).toBe('air');
    expect(read('sag@rear', { ...sag, at: { rate: 78_800, unit: 'lb/in' } })).toBe('coil');
    expect(read('sag@rear', sag)).toBeUndefined();
    expect(read('preload-place@rear', { value: 150 * psi, unit: 'psi', band: [160 * psi, 170 * psi] })).toBe(
      'air',
    );
  });

  it('has no preload left to turn where the sag of a coil asks for more than the collar gives', () => {
    const sagging = (value: number) => {
      const answers: CaseAnswer[] = [
        { question: 'spring-kind@rear', answer: 'coil', sure: 'sure' },
        {
          question: 'sag@rear',
          answer: 'more',
          sure: 'sure',
          measured: { value, unit: '%', band: [0.23, 0.32] },
        },
      ];
      const said = withToldSprings(rules, { answers })!;
      const bench = prepareBike(model, undefined, undefined, undefined, said);
      const at = rules.adjustments.findIndex(({ id }) => id === 'rear.spring.preload-more');
      return { turns: said.ends.rear.toldTurns, can: bench.possible[at]! };
    };
    const far = sagging(0.38);
    expect(far.turns).toBeGreaterThan(2);
    expect(far.can).toMatchObject({ can: false, unfit: false });
    expect(far.can.can ? '' : far.can.why).toContain('needs a different spring rate');
    expect(sagging(0.33).can.can).toBe(true);
    expect(sagging(0.28).turns).toBe(0);
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
