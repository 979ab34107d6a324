/**
 * Conversion factors against NIST Special Publication 811 (2008 edition), Appendix B.8, seven digits as printed there.
 * The values are quoted from memory, not read again for this test.
 */
import { expect, it } from 'vitest';
import { siPer, type Unit } from '../../src/bike/units.ts';

it.each<[Unit, number, string]>([
  ['psi', 6.894757e3, 'pound-force per square inch, Pa'],
  ['bar', 1.0e5, 'bar, Pa'],
  ['lb', 4.535924e-1, 'pound (avoirdupois), kg'],
  ['lb/in', 1.751268e2, 'pound-force per inch, N/m'],
  ['in', 2.54e-2, 'inch, m'],
])('%s is %f (%3$s) to seven digits', (unit, published) => {
  expect(Number(siPer(unit).toPrecision(7))).toBe(published);
});
