import { describe, expect, it } from 'vitest';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import { runCheck } from '../../src/casework/check-rules.ts';
import type { Check } from '../../src/rulebase/compile-checks.ts';
import { model } from '../support/front-rules.ts';

const bench = prepareBike(model);
const SLOW = 'front.rebound.low.too-slow';
const OPEN = 'front.rebound.low.open';

/** Faults of a check, up to where each says what came out instead. */
function faults(given: Check['given'], want: Check['expect']): string[] {
  const check: Check = {
    name: 'x',
    at: 'test/a.yaml:1',
    place: { file: 'a.yaml', line: 1, col: 1 },
    given,
    expect: want,
  };
  return runCheck(model, bench, check).map((line) => line.replace(/ \(leading: .*/, ''));
}

const PACKS = { packs: 'yes', loose: 'no' } as const;
const DANGER = { loose: 'yes' } as const;

describe('a check of the rules', () => {
  it.each<[string, Check['given'], Check['expect']]>([
    ['the first cause', PACKS, { first: SLOW }],
    ['one of several', PACKS, { oneOf: ['front.seals.worn', SLOW] }],
    ['those among the first three', PACKS, { top3: [SLOW] }],
    ['what is excluded', PACKS, { not: ['front.seals.worn'] }],
    ['how sure it is', PACKS, { atLeast: 0.3 }],
    ['that something is off', PACKS, { nothing: false }],
    [
      'what is done first',
      PACKS,
      { adjustment: ['front.spring.softer', OPEN], notAdjustment: ['front.rebuild'] },
    ],
    ['the caution of a danger', DANGER, { caution: 'loose' }],
  ])('holds where %s is as expected', (_, given, want) => {
    expect(faults(given, want)).toEqual([]);
  });

  it.each<[string, Check['given'], Check['expect'], string]>([
    ['another cause is first', PACKS, { first: 'front.seals.worn' }, 'expected front.seals.worn first'],
    [
      'none of several is first',
      PACKS,
      { oneOf: ['front.seals.worn'] },
      'expected one of front.seals.worn first',
    ],
    [
      'one is not among the first three',
      PACKS,
      { top3: [SLOW, 'front.seals.worn'] },
      'expected front.seals.worn among the first three',
    ],
    ['it is not sure enough', PACKS, { atLeast: 0.99 }, 'expected the first cause at 0.99 or more'],
    ['something is off', PACKS, { nothing: true }, 'expected the verdict nothing is off, it is change'],
    [
      'another thing is done first',
      PACKS,
      { adjustment: ['front.rebuild'] },
      'expected front.rebuild to be done first',
    ],
    [
      'that very thing is done first',
      PACKS,
      { notAdjustment: [OPEN] },
      `expected ${OPEN} not to be done first`,
    ],
    ['there is no danger', PACKS, { caution: 'loose' }, 'expected the caution loose'],
  ])('fails where %s', (_, given, want, fault) => {
    expect(faults(given, want)).toEqual([fault]);
  });

  it('fails for a cause that is not excluded, and says how likely it is', () => {
    expect(faults(PACKS, { not: [SLOW] })).toEqual([
      expect.stringMatching(/^expected front\.rebound\.low\.too-slow below 0\.2, it is 0\.\d\d$/),
    ]);
  });

  it('fails for every expectation at once, and says what leads', () => {
    expect(
      faults(PACKS, { first: 'front.seals.worn', nothing: true, adjustment: ['front.rebuild'] }),
    ).toHaveLength(3);
    const [line] = runCheck(model, bench, {
      name: 'x',
      at: '',
      place: { file: '', line: 0, col: 0 },
      given: PACKS,
      expect: { nothing: true },
    });
    expect(line).toMatch(
      /\(leading: front\.rebound\.low\.too-slow 0\.\d\d, .*; nothing off 0\.\d\d; first: front\.rebound\.low\.open\)$/,
    );
  });

  it('fails where its own answer is set aside: it tries nothing', () => {
    expect(faults({ packs: 'no', 'packs-deep': 'yes' }, {})).toEqual([
      'its answer to packs-deep is set aside, because packs is no; leave it out, or answer packs otherwise',
    ]);
  });

  it('takes an answer for as sure as it says', () => {
    const at = (sure: 'sure' | 'guess') => faults({ packs: { answer: 'yes', sure } }, { atLeast: 0.4 });
    expect(at('sure')).toEqual([]);
    expect(at('guess')).toHaveLength(1);
  });
});
