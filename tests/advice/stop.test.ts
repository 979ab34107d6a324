import { expect, it } from 'vitest';
import { stopReason, type StopInput } from '../../src/advice/stop.ts';
import { model } from '../support/front-rules.ts';

const { numbers } = model.rules;
const { enough, 'least-bits': least, 'keep-asking-bits': keep, 'most-questions': most } = numbers.asking;
/** Worth asking on. */
const ON: StopInput = {
  dangerous: false,
  worthKnowing: (much) => much <= enough,
  bits: least,
  safetyOpen: false,
  asked: most - 1,
  keepAsking: false,
  moves: () => true,
};

it.each<[string, Partial<StopInput>, ReturnType<typeof stopReason>]>([
  ['goes on while there is something to know and to ask', {}, undefined],
  [
    'stops at a finding that stops tuning, before anything else',
    { dangerous: true, safetyOpen: true },
    'danger',
  ],
  [
    'asks what is open of safety, however settled the rest is',
    { safetyOpen: true, bits: 0, worthKnowing: (much) => much <= 0, asked: most },
    undefined,
  ],
  [
    'stops when the next thing to know would hardly change the choice',
    { worthKnowing: (much) => much <= enough * 0.99 },
    'enough',
  ],
  ['stops when no question tells enough', { bits: least * 0.99 }, 'dry'],
  ['stops where no answer would put something else first', { moves: () => false }, 'settled'],
  ['stops where nothing was heard that is wrong', { heardNothing: () => true }, 'settled'],
  ['but not before what is open of safety', { heardNothing: () => true, safetyOpen: true }, undefined],
  [
    'nor for a rider who wants to go on',
    { heardNothing: () => true, keepAsking: true, bits: keep },
    undefined,
  ],
  ['stops after the most questions', { asked: most }, 'full'],
  [
    'goes on past all of that for a rider who wants to',
    { keepAsking: true, worthKnowing: (much) => much <= 0, asked: most, bits: keep, moves: () => false },
    undefined,
  ],
  ['but not past questions that tell next to nothing', { keepAsking: true, bits: keep * 0.99 }, 'dry'],
])('%s', (_, change, reason) => {
  expect(stopReason(numbers, { ...ON, ...change })).toBe(reason);
});

it('never has enough in a pack that asks so: it asks on, whatever comes of it', () => {
  const never = { ...numbers, asking: { ...numbers.asking, enough: 0 } };
  expect(stopReason(never, { ...ON, worthKnowing: (much) => much <= 0, moves: () => false })).toBeUndefined();
});
