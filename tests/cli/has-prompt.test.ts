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

it('asks of a hardtail for the knobs of its fork alone, in one key or line by line, and takes it back', async () => {
  const { has } = await ask([{ choose: 'it is a hardtail' }, ONE]);
  expect(has).toEqual({ kind: 'hardtail', front: { rebound: 'one', compression: 'one' } });
  const lined = scripted([
    { choose: 'it is a hardtail' },
    { choose: 'line by line' },
    { choose: 'Front rebound' },
    'done',
  ]);
  const lines = await askHas(lined, []);
  expect(lines?.raw).toEqual({ kind: 'hardtail', front: { rebound: 'one', compression: 'unsure' } });
  expect(lined.asked.flatMap(({ choices }) => choices.map(({ name }) => name)).join()).not.toMatch(
    /Rear|Kind/,
  );
  const back = scripted([{ choose: 'it is a hardtail' }, 'b', TWO]);
  expect((await askHas(back, []))?.raw).toMatchObject({ rear: { rebound: 'two' } });
});
