/** What a rider asks about doing: heard, and never taken for something that was tried. */
import { expect, it } from 'vitest';
import { buildTriedReader } from '../../src/words/tried/tried.ts';
import { baseRules } from './base-pack.ts';

const reader = buildTriedReader(baseRules());
const wished = (said: string): string[] =>
  reader.wishes(said).map((w) => `${w.end ?? '?'} ${w.setting} ${w.direction}`);

it.each([
  ["Fork's too stiff, isn't it? Can you let some air out?", ['front spring less']],
  ['Should I open the rebound on the shock?', ['rear rebound open']],
  ['thinking of adding a volume spacer to the fork', ['front ramp-up more']],
  ['Do I need more spacers in the shock?', ['rear ramp-up more']],
  ['More air in the fork?', ['front spring more']],
  ['Should I take a spacer out of the fork?', ['front ramp-up less']],
  ['I was going to wind in the rebound at the back', ['rear rebound close']],
  ['Do I need to close the rebound, or put in a spacer?', ['? rebound close', '? ramp-up more']],
  ['Should I open the rebound? Or let air out of the fork?', ['? rebound open', 'front spring less']],
  ['My mate says I should soften the compression at the front', ['front compression open']],
])('"%s"', (said, changes) => {
  expect(wished(said)).toEqual(changes);
  expect(reader.read(said)).toEqual([]);
});

it.each([
  'I opened the rebound two clicks and it got worse',
  "I don't want to open the rebound",
  'It packs down in the braking bumps and dives',
  'Let some air out of the fork, no difference',
])('"%s" asks for nothing', (said) => {
  expect(wished(said)).toEqual([]);
});

it('tells of what was tried all the same', () => {
  const said = 'Took two psi out of the fork, no change. Should I add a spacer?';
  expect(reader.read(said).map((t) => t.setting)).toEqual(['spring']);
  expect(wished(said)).toEqual(['front ramp-up more']);
});
