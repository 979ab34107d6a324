import { describe, expect, it } from 'vitest';
import { prepareBike, type PreparedBike } from '../../src/advice/prepared-bike.ts';
import { readSheet } from '../../src/bike/form/read.ts';
import { readDeed } from '../../src/bike/deed.ts';
import type { BikeSheet } from '../../src/bike/sheet.ts';
import type { CaseAnswer, CaseResult } from '../../src/casework/case.ts';
import { consult } from '../../src/casework/consult.ts';
import { measuredBench as measuredAfter } from '../../src/workspace/bikes/measured-bench.ts';
import { sheetPhysics } from '../../src/workspace/physics.ts';
import { exampleData } from '../bike/example.ts';
import { baseModel, bareBike } from '../support/base-rules.ts';

const model = baseModel();
const measuredBench = (
  of: typeof model,
  bench: PreparedBike,
  answers: readonly CaseAnswer[],
  made: typeof make,
  results: readonly CaseResult[] = [],
) => measuredAfter(of, bench, { answers, results }, made);
const make = async (sheet: BikeSheet): Promise<PreparedBike> =>
  prepareBike(model, sheet, await sheetPhysics(sheet));
/** The bike with every knob, its rear sag as told. */
const sheetWith = (sag: object): BikeSheet => {
  const data = exampleData('all-knobs');
  return readSheet({ ...data, rear: { ...(data['rear'] as object), sag } }).sheet!;
};
const sag = (value: number, band: readonly [number, number] = [0.27, 0.31]): CaseAnswer => ({
  question: 'sag@rear',
  answer: value > band[1] ? 'more' : value < band[0] ? 'less' : 'target',
  sure: 'sure',
  measured: { value, unit: '%', band },
});
const word = (answer: string): CaseAnswer => ({ question: 'sag@rear', answer, sure: 'sure' });
const stepOf = (bench: PreparedBike, id: string) => {
  const can = bench.possible[bench.rules.adjustments.findIndex((a) => a.id === id)]!;
  return can.can ? can.step : undefined;
};

const ridden = (change: string, kept: boolean, rest: Partial<CaseResult> = {}): CaseResult => ({
  change: model.rules.adjustments.some(({ id }) => id === change) ? { name: change } : readDeed(change),
  outcome: kept ? 'better' : 'same',
  kept,
  ...rest,
});

describe('a number that is told in an answer', () => {
  it('makes the step that the same number on the sheet makes, and a word does not', async () => {
    const plain = await make(sheetWith({ wanted: '29%' }));
    const told = await measuredBench(model, plain, [sag(0.35)], make);
    const written = await make(sheetWith({ measured: '35%', wanted: '29%' }));
    const step = stepOf(told, 'rear.spring.firmer')!;
    expect(step).toEqual(stepOf(written, 'rear.spring.firmer'));
    expect(step.by).toBeGreaterThan(stepOf(plain, 'rear.spring.firmer')!.by);
    expect(await measuredBench(model, plain, [word('more')], make)).toBe(plain);
  });
  it('counts once: as its answer, and in the place of an older number on the sheet', async () => {
    const plain = await make(sheetWith({ wanted: '29%' }));
    const older = await make(sheetWith({ measured: '29%', wanted: '29%' }));
    const wishes = { next: false, explain: 0, fit: false };
    const causes = (bench: PreparedBike, answer: CaseAnswer) =>
      consult(model, bench, { id: 'a', answers: [answer], results: [], earlier: [] }, wishes).belief.causes;
    const byWord = causes(plain, word('more'));
    const close = (a: Float64Array) => a.forEach((p, cause) => expect(p).toBeCloseTo(byWord[cause]!, 12));
    close(causes(await measuredBench(model, plain, [sag(0.35)], make), sag(0.35)));
    close(causes(await measuredBench(model, older, [sag(0.35)], make), sag(0.35)));
  });
  it('is held against the middle of its band where the sheet has no target', async () => {
    const plain = await make(sheetWith({}));
    const told = await measuredBench(model, plain, [sag(0.4, [0.23, 0.32])], make);
    expect(told.sheet!.ends.rear).toMatchObject({ sagMeasured: 0.4, sagWanted: 0.275 });
  });
  it('is taken back with its answer, and worked out once', async () => {
    const plain = await make(sheetWith({ wanted: '29%' }));
    const told = await measuredBench(model, plain, [sag(0.35)], make);
    expect(await measuredBench(model, told, [sag(0.35)], make)).toBe(told);
    expect(await measuredBench(model, told, [word('more')], make)).toBe(plain);
    const other = await measuredBench(model, told, [sag(0.2)], make);
    expect(other.sheet!.ends.rear.sagMeasured).toBe(0.2);
    expect(other.told!.plain).toBe(plain);
  });
  it('changes nothing of a bike without a sheet', async () => {
    expect(await measuredBench(model, bareBike(), [sag(0.4)], make)).toBe(bareBike());
  });
  it('of a spring or a tyre is where its step begins', async () => {
    const plain = await make(sheetWith({ wanted: '29%' }));
    const told = await measuredBench(
      model,
      plain,
      [
        {
          question: 'preload-place@rear',
          answer: 'under',
          sure: 'sure',
          measured: { value: 10e5, unit: 'bar', band: [11e5, 13e5] },
        },
        {
          question: 'tyre-target@front',
          answer: 'over',
          sure: 'sure',
          measured: { value: 2e5, unit: 'bar', band: [1.4e5, 1.7e5] },
        },
      ],
      make,
    );
    expect(told.sheet!.ends.rear.spring).toMatchObject({ pressure: 10e5 });
    const { from, to } = stepOf(told, 'front.tyre.softer')!;
    expect([from, to].map((psi) => Math.round(psi!))).toEqual([29, 23]);
  });
});

describe('a number that was told before a trial', () => {
  const wanted = sheetWith({ measured: '29%', wanted: '29%' });
  const after = async (result: CaseResult, told: CaseAnswer = sag(0.35)) =>
    measuredBench(model, await make(wanted), [told], make, [result]);

  it.each(['rear.rebound.low+2', 'front.spring+5psi', 'rear.tyre+2psi', 'rear.rebound.low.open'])(
    'stands where %s was kept',
    async (change) => {
      expect((await after(ridden(change, true))).sheet!.ends.rear.sagMeasured).toBe(0.35);
    },
  );
  it.each(['rear.spring+5psi', 'rear.spring.firmer', 'rear.spring+2psi, rear.rebound.low+1'])(
    'is gone where %s was kept, and stands where it was not',
    async (change) => {
      expect((await after(ridden(change, true))).sheet!.ends.rear.sagMeasured).toBe(0.29);
      expect((await after(ridden(change, false))).sheet!.ends.rear.sagMeasured).toBe(0.35);
    },
  );
  it('is gone where something was changed since that nobody told', async () => {
    const { sheet } = await after(ridden('rear.rebound.low+2', false, { changedAfter: true }));
    expect(sheet!.ends.rear.sagMeasured).toBe(0.29);
  });
  it('of a tyre is gone where that tyre was let down for good', async () => {
    const tyre: CaseAnswer = {
      question: 'tyre-target@front',
      answer: 'over',
      sure: 'sure',
      measured: { value: 2e5, unit: 'bar', band: [1.4e5, 1.7e5] },
    };
    expect((await after(ridden('front.tyre-2psi', true), tyre)).sheet).toBe(wanted);
    expect((await after(ridden('rear.tyre-2psi', true), tyre)).sheet!.ends.front.tyre!.now).toBe(2e5);
  });
  it('is evidence all the same, and the older number on the sheet is none', async () => {
    const spring = model.rules.settings.findIndex(({ id }) => id === 'rear.spring');
    const plain = await make(wanted);
    expect(plain.findings.some(({ setting }) => setting === spring)).toBe(true);
    for (const kept of [true, false]) {
      const { findings } = await after(ridden('rear.spring+5psi', kept));
      expect(findings.some(({ setting }) => setting === spring)).toBe(false);
    }
  });
});

describe('a spring pressure that is told', () => {
  const psi = 6894.757;
  const told = (value: number): CaseAnswer => ({
    question: 'preload-place@rear',
    answer: 'under',
    sure: 'sure',
    measured: { value: value * psi, unit: 'psi', band: [170 * psi, 180 * psi] },
  });
  const bike = sheetWith({ measured: '24%', wanted: '29%' });
  const spring = model.rules.settings.findIndex(({ id }) => id === 'rear.spring');
  const hasSag = ({ findings }: PreparedBike) => findings.some(({ setting }) => setting === spring);

  it('takes off what was read at another one, from the sheet and from the evidence', async () => {
    const { rear } = bike.ends;
    expect([rear.sagMeasured, rear.travelUsed]).not.toContain(undefined);
    const bench = await measuredBench(model, await make(bike), [told(150)], make);
    const { sagMeasured, travelUsed, sagWanted, spring: now } = bench.sheet!.ends.rear;
    expect([sagMeasured, travelUsed, sagWanted]).toEqual([undefined, undefined, 0.29]);
    expect(now).toMatchObject({ kind: 'air', pressure: 150 * psi });
    expect(bench.sheet!.ends.front).toBe(bike.ends.front);
    expect(hasSag(bench)).toBe(false);
  });
  it('leaves it where it is the one on the sheet', async () => {
    const at = bike.ends.rear.spring;
    const same = told(at.kind === 'air' ? at.pressure! / psi : NaN);
    const bench = await measuredBench(model, await make(bike), [same], make);
    expect(bench.sheet!.ends.rear).toMatchObject({ sagMeasured: 0.24, travelUsed: 0.96 });
    expect(hasSag(bench)).toBe(true);
  });
  it.each([
    ['before', [sag(0.35), told(150)]],
    ['after', [told(150), sag(0.35)]],
  ] as const)("leaves today's sag, told %s it", async (_, answers) => {
    const { sheet } = await measuredBench(model, await make(bike), answers, make);
    expect(sheet!.ends.rear.sagMeasured).toBe(0.35);
  });
});
