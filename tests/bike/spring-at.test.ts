import { expect, it } from 'vitest';
import { readSpringAt, writeSpringAt } from '../../src/bike/gauge/spring-at.ts';

const beside = { end: 'front' } as never;
const read = (text: string, kind?: 'air' | 'coil'): string => {
  const told = readSpringAt(text, kind, beside);
  return told.ok ? writeSpringAt(told.at) : told.why;
};

it.each([
  ['450 lb/in', 'coil', '450 lb/in'],
  ['450 lbs/in', undefined, '450 lb/in'],
  ['80 n/mm', 'coil', '80 N/mm'],
  ['450', 'coil', '450 lb/in'],
  ['450 lb/in', 'air', '450 lb/in is not the pressure of an air spring.'],
  ['85 psi', 'coil', '85 psi is not the rate of a coil.'],
] as const)('reads %s beside the sag of a spring that is %s', (text, kind, said) => {
  expect(read(text, kind)).toBe(said);
});
