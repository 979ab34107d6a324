import { expect, it } from 'vitest';
import { answersByMass } from '../../src/casework/reading/answers-by-mass.ts';

const questions = [{ id: 'mass', byMass: { light: { below: 60 }, heavy: { above: 100 } } }, { id: 'other' }];

it.each([
  [44, ['light']],
  [60, []],
  [80, []],
  [100, []],
  [112, ['heavy']],
])('%d kg answers %j', (mass, answers) => {
  expect(answersByMass(questions, mass).map(({ answer }) => answer)).toEqual(answers);
});
