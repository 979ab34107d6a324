import { expect, it } from 'vitest';
import type { Tried } from '../../src/casework/case.ts';
import { askHas } from '../../src/cli/asking/has-prompt.ts';
import { scripted } from '../support/scripted.ts';

const ONE = { choose: 'one rebound and one compression knob' };
const TWO = { choose: 'two knobs each' };
const tried = (setting: string): Tried[] => [{ setting, direction: 'open', result: 'same', putBack: 'no' }];
const ask = async (keys: readonly { readonly choose: string }[], told: readonly Tried[] = []) => {
  const prompter = scripted(keys);
  const has = await askHas(prompter, [], told);
  return { has: has?.raw, shown: prompter.shown.replaceAll(/\s+/g, ' ') };
};

it('asks the list of knobs once more where it lacks one that was told to have been turned', async () => {
  const { has, shown } = await ask([ONE, TWO], tried('front.compression.high'));
  expect(shown).toContain('You told of a change to the front high-speed compression');
  expect(has).toMatchObject({ front: { compression: 'two' } });
});

it('takes the list as it is the second time, and at once where it lacks nothing that was told', async () => {
  expect((await ask([ONE, ONE], tried('front.compression.high'))).has).toMatchObject({
    front: { compression: 'one' },
  });
  // One knob is called low-speed by whoever tells of it.
  const { has, shown } = await ask([ONE], tried('front.compression.low'));
  expect(has).toMatchObject({ front: { compression: 'one' } });
  expect(shown).toBe('');
});
