/** Why a knob goes by another number of clicks than it usually does. */
import { describe, expect, it } from 'vitest';
import { ownSize } from '../../../src/advice/step/own-size.ts';
import type { BikeSheet } from '../../../src/bike/sheet.ts';
import { prepareBike } from '../../../src/advice/prepared-bike.ts';
import { exampleSheet } from '../../bike/example.ts';
import { model, rules } from '../../support/told.ts';

const usual = { setting: 'rear.rebound.low', by: -2, unit: 'clicks' as const };
const far = { ...rules.numbers.advice, reasons: rules.reasons };
const by = (clicks: number) => ({ ...usual, by: clicks });

/** The rear rebound at so many of 20 clicks, and the maker's figure. */
function at(now: number, maker?: number): BikeSheet {
  const sheet = exampleSheet('all-knobs');
  const { rear } = sheet.ends;
  const low = { range: 20, now, ...(maker === undefined ? {} : { maker }) };
  return {
    ...sheet,
    ends: { ...sheet.ends, rear: { ...rear, adjusters: { ...rear.adjusters, 'rebound.low': low } } },
  };
}

describe('the size of a step', () => {
  it.each([
    ['is no matter where it is the usual one', at(14, 5), -2, undefined],
    [
      'is told where it stands far from the figure',
      at(14, 5),
      -4,
      '4 clicks rather than 2, because it is far off',
    ],
    ['is told where it stands near its stop', at(19), -4, '4 clicks rather than 2, because it is far off'],
    [
      'is told where fewer are not felt',
      at(10),
      -3,
      '3 clicks rather than 2: on this knob that is one step you can feel',
    ],
    [
      'is told where one is felt',
      at(10),
      -1,
      '1 click rather than 2: on this knob that is one step you can feel',
    ],
    ['is that of the range that is left at a stop', at(1), -1, undefined],
  ] as const)('%s', (_, sheet, clicks, said) => {
    expect(ownSize(usual, by(clicks), sheet, far)).toBe(said);
  });

  it('stands on the card with it', () => {
    const { possible } = prepareBike(model, at(14, 5));
    const index = rules.adjustments.findIndex(({ id }) => id === 'rear.rebound.low.close');
    expect(possible[index]).toMatchObject({
      can: true,
      note: expect.stringMatching(/^\d clicks rather than 2, /) as string,
    });
  });

  it('is left open where the clicks are known and nobody counted where it stands, as its trial will size it', () => {
    const index = rules.adjustments.findIndex(({ id }) => id === 'rear.rebound.low.close');
    const note = (sheet: BikeSheet): unknown => prepareBike(model, sheet).possible[index];
    const { rear } = at(14).ends;
    const uncounted = (low: object): BikeSheet => ({
      ...at(14),
      ends: { ...at(14).ends, rear: { ...rear, adjusters: { ...rear.adjusters, 'rebound.low': low } } },
    });
    expect(note(uncounted({ range: 20 }))).toMatchObject({
      note: expect.stringContaining('one step may come out at more or fewer clicks') as string,
    });
    expect(note(uncounted({}))).toMatchObject({
      note: expect.not.stringContaining('come out') as string,
    });
  });
});
