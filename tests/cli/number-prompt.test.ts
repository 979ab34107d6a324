import { describe, expect, it } from 'vitest';
import { prepareBike, type PreparedBike } from '../../src/advice/prepared-bike.ts';
import type { End } from '../../src/bike/sheet.ts';
import {
  askNumber,
  gaugeHere,
  lineOrReading,
  type Measure,
  type ToldRider,
} from '../../src/cli/asking/number-prompt.ts';
import { writeBand, writeNumber } from '../../src/bike/gauge/read-number.ts';
import { readSheet } from '../../src/bike/form/read.ts';
import { exampleData } from '../bike/example.ts';
import { bareBike, baseModel } from '../support/base-rules.ts';
import { scripted, type Press } from '../support/scripted.ts';

const bare = bareBike();
const YES: Press = { choose: 'yes' };
/** Nobody knows what the spring holds. */
const UNKNOWN: Press = { text: '' };

async function asked(
  id: string,
  text: string,
  keys: readonly Press[],
  bench: PreparedBike = bare,
  rider: ToldRider = {},
) {
  const question = bench.rules.questions.find((q) => q.id === id)!;
  const prompter = scripted(keys);
  const whole = { ...question, gauge: question.gauge!, end: question.end as End };
  const got = await askNumber(prompter, text, whole, bench, rider);
  return { got, told: got === undefined ? undefined : inWords(got), prompter };
}

const inWords = ({ answer, measured: { value, unit, band } }: Measure): string =>
  `${answer}: ${writeNumber(value, unit)} against ${writeBand(band, unit)}`;

describe('a number in the place of an answer', () => {
  it.each([
    ['sag@front', '30 %', 'more: 30 % against 13 to 22 %'],
    ['sag@front', '26/150 mm', 'target: 17.3 % against 13 to 22 %'],
    ['sag@rear', '12 of 60', 'less: 20 % against 23 to 32 %'],
    ['sag@rear', '16/60 mm', 'target: 26.7 % against 23 to 32 %'],
  ] as const)('%s: %s is held against what is usual', async (id, text, told) => {
    expect((await asked(id, text, [YES, UNKNOWN])).told).toBe(told);
  });
  it('asks beside a sag that is off what the air spring holds, and no more than that', async () => {
    const held = await asked('sag@front', '7/120 mm', [YES, { text: 'some' }, { text: '85 psi' }]);
    expect(held.prompter.shown).toContain('some is not a spring pressure');
    expect(held.got!.measured).toMatchObject({ length: { whole: 0.12, unit: 'mm' }, at: { unit: 'psi' } });
    expect(held.got!.measured.at).toMatchObject({ pressure: expect.closeTo(85 * 6894.757, 0) });
    expect((await asked('sag@front', '7/120 mm', [YES, UNKNOWN])).got!.measured.at).toBeUndefined();
    for (const [id, text, bench] of [
      ['sag@front', '17 %', bare],
      ['sag@front', '7/120 mm', { ...bare, fact: () => 'none' }],
      ['tyre-pressure@rear', '30 psi', bare],
    ] as const)
      expect(
        (await asked(id, text, id.startsWith('tyre') ? [{ text: '25 psi' }, YES] : [YES], bench)).got,
      ).toBeDefined();
  });
  it('asks which coil it is where there is one, in a unit that it can be in', async () => {
    const coil = { ...bare, fact: () => 'coil' };
    const told = async (...texts: readonly string[]) => {
      const keys = [YES, ...texts.map((text) => ({ text }))];
      return (await asked('sag@rear', '23/60 mm', keys, coil)).got!.measured.at;
    };
    expect(await told('450')).toMatchObject({ unit: 'lb/in', rate: expect.closeTo(450 * 175.127, 0) });
    expect(await told('85 N/mm')).toMatchObject({ unit: 'N/mm', rate: expect.closeTo(85_000, 0) });
    // 80 are a coil in either unit, and a pressure is none.
    expect(await told('80', '80 psi', '')).toBeUndefined();
  });
  it('says where it lies so near the edge of what is usual that it tells little, and counts it so', async () => {
    const { got, prompter } = await asked('sag@front', '22 %', [YES]);
    expect(got!.sure).toBe('guess');
    expect(prompter.asked[0]!.message).toContain('so near the edge of what is usual it says little');
    const middle = await asked('sag@front', '17 %', [YES]);
    expect(middle.got!.sure).toBe('sure');
    expect(middle.prompter.asked[0]!.message).not.toContain('edge');
    const tyre = await asked('tyre-target@front', '27 psi', [{ text: '80 kg' }, YES]);
    expect(tyre.got).toMatchObject({ answer: 'target', sure: 'guess' });
  });
  it('asks the weight once, and holds a pressure in either unit against what is usual for it', async () => {
    const rider: ToldRider = {};
    const keys: Press[] = [{ text: '900 kg' }, { text: 'heavy' }, { text: '80 kg' }, YES];
    const front = await asked('tyre-target@front', '2.4 bar', keys, bare, rider);
    expect(front.prompter.shown).toMatch(/900 kg cannot be right[^]*heavy is not a number/);
    expect(front.told).toBe('over: 2.4 bar against 1.22 to 2.03 bar');
    const rear = await asked('tyre-target@rear', '24 psi', [YES], bare, rider);
    expect(rear.told).toBe('target: 24 psi against 19.9 to 33.1 psi');
  });
  it('asks for the figure where nothing is known to hold it against', async () => {
    const { told } = await asked('preload-place@rear', '150 psi', [{ text: '13' }, YES]);
    expect(told).toBe('under: 150 psi against 179.1 to 198 psi');
    const noWeight = await asked('tyre-target@front', '35 psi', [
      { text: '' },
      { text: '25 to 27 psi' },
      YES,
    ]);
    expect(noWeight.told).toBe('over: 35 psi against 25 to 27 psi');
  });
  it('counts nothing that is taken back, makes no sense, or has no figure', async () => {
    expect((await asked('sag@rear', '43 %', [{ choose: 'back to the question' }])).got).toBeUndefined();
    expect((await asked('sag@rear', 'deep', [])).got).toBeUndefined();
    expect((await asked('tyre-pressure@rear', '30 psi', [{ text: '' }])).got).toBeUndefined();
  });
  it("goes by the sheet's target, stroke and unit where there is a sheet", async () => {
    const data = exampleData('all-knobs');
    const { sheet } = readSheet({
      ...data,
      rear: { ...(data['rear'] as object), stroke: 60, sag: { wanted: '30%' } },
      front: { ...(data['front'] as object), tyre: { wanted: '1.6 bar' } },
    });
    const bench = prepareBike(baseModel(), sheet);
    expect((await asked('sag@rear', '26 mm', [YES], bench)).told).toBe('more: 43.3 % against 28 to 32 %');
    expect((await asked('tyre-pressure@front', '23', [YES], bench)).told).toBe(
      'usual: 23 psi against 22 to 24.4 psi',
    );
  });
  it('takes no pressure of a coil', () => {
    const question = bare.rules.questions.find(({ id }) => id === 'preload-place@rear')!;
    expect(gaugeHere(question, bare)).toBe(question.gauge);
    expect(gaugeHere(question, { ...bare, fact: () => 'coil' })).toBeUndefined();
  });
});

describe('a digit that is the number of a line', () => {
  const picked = async (id: string, at: number, keys: readonly Press[], typed = true) => {
    const question = bare.rules.questions.find((q) => q.id === id)!;
    const prompter = scripted(keys);
    const chosen = {
      value: `answer:${question.answers[at - 1]!.id}`,
      sure: 'fairly' as const,
      ...(typed ? { text: String(at) } : {}),
    };
    return { chosen, got: await lineOrReading(prompter, chosen, question, question.gauge), prompter };
  };
  it.each(['tyre-pressure@front', 'tyre-target@rear', 'preload-place@rear'])(
    'may be read off the gauge at %s: which of the two is asked',
    async (id) => {
      const line = await picked(id, 2, [{ choose: 'line 2: clearly' }]);
      expect(line.got).toEqual(line.chosen);
      expect(line.prompter.asked[0]).toMatchObject({ message: 'Line 2, or 2 bar?', deliberate: true });
      const bar = await picked(id, 2, [{ choose: '2 bar, read off the gauge' }]);
      expect(bar.got).toEqual({ value: 'said', text: '2 bar', sure: 'fairly' });
    },
  );
  it('is the line where no such sag is read, or it was not typed', async () => {
    const sag = await picked('sag@front', 2, []);
    expect(sag.got).toEqual(sag.chosen);
    const pointedAt = await picked('tyre-pressure@front', 2, [], false);
    expect(pointedAt.got).toEqual(pointedAt.chosen);
  });
});
