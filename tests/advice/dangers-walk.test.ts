/** A dangerous answer stops the ride however it was given: as a guess, at an end not known, second, or against a clean look. */
import { expect, it } from 'vitest';
import { earshot } from '../support/io.ts';

/** Enough for a click by itself. */
const FOR_A_CLICK = {
  'safety.found': 'none',
  'safety.brakes': 'good',
  complaint: 'rows',
  'hit-pattern': 'row',
  'repeated-hits.trend@front': 'worse',
  'return-speed@front': 'deep',
  'run-trend': 'section',
  'sag@front': 'target',
};
const told = async (answers: object): Promise<string> =>
  (
    await earshot(['diagnose', '-'], {
      stdin: JSON.stringify({ case: 1, id: 'x', answers: { ...FOR_A_CLICK, ...answers } }),
    })
  ).out;

it('is a click without a danger', async () => {
  expect(await told({})).toMatch(/^Do this first\n {2}Open the front high-speed rebound/m);
});

it.each([
  ['a crack that was only guessed at', { 'safety.found': { answer: 'crack', sure: 'guess' } }],
  ['a knock that was placed after nothing was found', { 'safety.noise': 'rear' }],
  [
    'a cut casing, second of two and guessed, at an end not known',
    {
      'tread-check@either': { answer: ['worn', 'casing'], sure: 'guess' },
    },
  ],
  [
    'a loose wheel at an end not known, where both ends were found fine',
    {
      'wheel-check@front': 'fine',
      'wheel-check@rear': 'fine',
      'wheel-check@either': 'loose',
    },
  ],
  [
    'a return without damping, guessed, of the end that is left',
    {
      'push-return@front': 'once',
      'push-return@either': { answer: 'undamped', sure: 'guess' },
    },
  ],
  [
    'a knob that suddenly does nothing, at an end not known',
    {
      'knob-effect@either': { answer: 'none', sure: 'guess' },
      onset: 'sudden',
    },
  ],
])('stops for %s', async (_, answers) => {
  const out = await told(answers);
  expect(out).toMatch(/^STOP: do not ride this bike$/m);
  expect(out).not.toMatch(/Do this first|rebound:|First run after a change|Leave it/);
});

it('does not stop for two signs at different ends that are a danger at one', async () => {
  const out = await told({ 'knob-effect@rear': 'none', 'push-return@front': 'springs' });
  expect(out).not.toContain('STOP');
});
