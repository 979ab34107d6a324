import { describe, expect, it } from 'vitest';
import { readSheet } from '../../src/bike/form/read.ts';
import { told, withValue } from './example.ts';

describe('what is wrong with an end', () => {
  it.each([
    [
      'an unknown key inside',
      'front.rebound.lo',
      3,
      'front.rebound error: front › rebound: lo is not known here. Did you mean low?',
    ],
    [
      'an end that is no map',
      'rear',
      'soft',
      'rear error: rear: found "soft", expected a map. Write the value in that form.',
    ],
    [
      'a stroke longer than the travel',
      'rear.stroke',
      170,
      'rear.stroke error: rear: the shock stroke is longer than the wheel travel. Swap the two, or check their units.',
    ],
    [
      'a leverage among three that is none',
      'rear.leverage',
      [2.9, 'two', 2.4],
      'rear.leverage.1 error: rear › leverage › entry 2: found "two", expected a number. Write a number from 1 to 5.',
    ],
    [
      'two leverages',
      'rear.leverage',
      [3, 2],
      'rear.leverage error: rear › leverage: found a list, expected 3 or more entries. Write leverage: [3.0, 2.7, 2.4].',
    ],
    [
      'no spring',
      'front.spring',
      undefined,
      'front error: front: spring is missing. Write spring: { kind: air, pressure: 80 } or { kind: coil, rate: 80 }.',
    ],
    [
      'a spring without kind',
      'front.spring',
      { pressure: 80 },
      'front.spring error: front › spring: kind is missing. Add kind: one of air, coil.',
    ],
    [
      'a spring of another kind',
      'front.spring.kind',
      'coli',
      'front.spring.kind error: front › spring › kind: found "coli", expected one of air, coil. Did you mean coil?',
    ],
    [
      'a coil key on an air spring',
      'front.spring.rate',
      80,
      'front.spring error: front › spring: rate is not known here. Known keys: kind, pressure, min, max, maker, spacers, spacers-max.',
    ],
    [
      'min above max',
      'front.spring.min',
      '9 bar',
      'front.spring.min error: front › spring: min is above max. Swap the two.',
    ],
    [
      'more spacers than fit',
      'front.spring.spacers',
      6,
      'front.spring.spacers error: front › spring: 6 spacers where at most 5 fit. Count them again.',
    ],
    [
      'sag without percent',
      'front.sag.measured',
      22,
      "front.sag.measured error: front › sag › measured: found 22, expected at most 0.6. Write it as a share of the travel (at the rear, of the shock's stroke), like 28%.",
    ],
    [
      'rear sag in mm, which says nothing of the stroke',
      'rear.sag.measured',
      '18 mm',
      'rear.sag.measured error: rear › sag › measured: "18 mm": expected a percentage such as 28%. Write it as a share of the travel (at the rear, of the shock\'s stroke), like 28%.',
    ],
    [
      'sag beyond 60 %',
      'front.sag.measured',
      '61%',
      'front.sag.measured error: front › sag › measured is 61%; no bike goes outside 0 to 60 %. Check the number and its unit.',
    ],
    [
      'negative sag',
      'front.sag.measured',
      '-3%',
      'front.sag.measured error: front › sag › measured is -3%; no bike goes outside 0 to 60 %. Check the number and its unit.',
    ],
    [
      'more travel used than there is',
      'front.travel-used',
      '104%',
      'front.travel-used error: front › travel-used is 104%; no bike goes outside 0 to 100 %. Check the number and its unit.',
    ],
    [
      'a knob without its range',
      'front.rebound.low',
      { now: 3 },
      'front.rebound.low error: front › rebound › low: clicks is missing. Write clicks: and how many the knob has from fully closed to fully open, or clicks: unknown.',
    ],
    [
      'a knob that is only a number',
      'front.rebound.low',
      8,
      'front.rebound.low error: front › rebound › low: found 8, expected none, or a map. Write { clicks: 16, now: 8 }: how many it has, and where it stands from fully closed; or none.',
    ],
    [
      'clicks beyond the range',
      'front.rebound.low.now',
      17,
      'front.rebound.low.now error: front › rebound › low: now is 17 clicks from closed, but the knob has only 16. Count again from fully closed, without force.',
    ],
    [
      'a maker’s count beyond the range',
      'front.rebound.low.maker',
      17,
      'front.rebound.low.maker error: front › rebound › low: maker is 17 clicks from closed, but the knob has only 16. Count again from fully closed, without force.',
    ],
    [
      'negative clicks',
      'front.rebound.low.now',
      -1,
      'front.rebound.low.now error: front › rebound › low › now: found -1, expected 0 or more. Write a whole number from 0 to 100.',
    ],
    [
      'half a click',
      'front.rebound.low.now',
      7.5,
      'front.rebound.low.now error: front › rebound › low › now: found 7.5, expected a whole number. Write a whole number from 0 to 100.',
    ],
    [
      'a tyre at shock pressure',
      'front.tyre.now',
      178,
      'front.tyre.now error: front › tyre › now is 178; no bike goes outside 4.4 to 87 psi. Check the number and its unit.',
    ],
    [
      'a curve that is no list',
      'rear.curve',
      3,
      'rear.curve error: rear › curve: found 3, expected none, or a list. Write - { circuit: rebound, speed: 0.1, force: 180, low: 8, high: 4 }.',
    ],
    [
      'a point without force',
      'rear.curve',
      [{ circuit: 'rebound', speed: 1, low: 1, high: 1 }],
      'rear.curve.0 error: rear › curve › entry 1: force is missing. Give circuit, speed (m/s), force (N), and the clicks low and high it was measured at (0 for a knob that is not there).',
    ],
    [
      'a point beyond the range',
      'rear.curve',
      [{ circuit: 'rebound', speed: 1, force: 9, low: 17, high: 1 }],
      'rear.curve.0.low error: rear › curve › entry 1: low is 17 clicks from closed, but that knob has only 16. Count again from fully closed.',
    ],
  ])('refuses %s', (_, path, value, message) => {
    const { sheet } = readSheet(withValue(path, value));
    expect(sheet).toBeUndefined();
    expect(told(withValue(path, value))).toEqual([message]);
  });

  it.each([
    [
      'a pressure above the maker’s max',
      'front.spring.pressure',
      121,
      "front.spring.pressure warning: front › spring: pressure is above the manufacturer's maximum. Check it with a gauge and against the manual before riding.",
    ],
    [
      'a pressure below the maker’s min',
      'front.spring.pressure',
      '3 bar',
      "front.spring.pressure warning: front › spring: pressure is below the manufacturer's minimum. Check it with a gauge and against the manual before riding.",
    ],
    [
      'too much preload',
      'rear.spring',
      { kind: 'coil', preload: 4, 'preload-max': 3 },
      "rear.spring.preload warning: rear › spring: preload is above the manufacturer's maximum preload. Turn the collar back, and look for a stiffer spring.",
    ],
    [
      'a stroke in front',
      'front.stroke',
      60,
      'front.stroke warning: front: stroke is about the rear shock and is not used here. Move it below rear:.',
    ],
  ])('warns of %s and still gives the sheet', (_, path, value, message) => {
    const raw = withValue(path, value);
    expect(told(raw)).toEqual([message]);
    expect(readSheet(raw).sheet).toBeDefined();
  });
});
