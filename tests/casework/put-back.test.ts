import { describe, expect, it } from 'vitest';
import { prepareBike, type PreparedBike } from '../../src/advice/prepared-bike.ts';
import { physicsOf } from '../../src/advice/physics.ts';
import { readDeed } from '../../src/bike/deed.ts';
import { readSheet } from '../../src/bike/form/read.ts';
import type { CaseAnswer, CaseResult, Tried } from '../../src/casework/case.ts';
import { consult } from '../../src/casework/consult.ts';
import { cutStep } from '../../src/advice/step/cut-step.ts';
import { bikeFromSheet } from '../../src/physics/index.ts';
import type { Result } from '../../src/report/result/result.ts';
import { toResult } from '../../src/report/result/to-result.ts';
import { withValue } from '../bike/example.ts';
import { bench as bare, caseOf, model } from '../support/told.ts';

function told(
  bench: PreparedBike,
  tried: readonly Tried[],
  answers: Record<string, string>,
  results: readonly CaseResult[] = [],
): Result {
  const kase = caseOf(answers, { tried, results });
  return toResult(model, kase, consult(model, bench, kase, { next: false, explain: 3, fit: false }));
}

function benchWith(values: readonly (readonly [string, unknown])[]): PreparedBike {
  const [first, ...rest] = values;
  const data = withValue(...first!) as Record<string, unknown>;
  for (const [path, value] of rest) {
    const keys = path.split('.');
    const last = keys.pop()!;
    const map = keys.reduce((m, key) => (m[key] ??= {}) as Record<string, unknown>, data);
    if (value === undefined) delete map[last];
    else map[last] = value;
  }
  const { sheet, problems } = readSheet(data);
  expect(problems).toEqual([]);
  return prepareBike(model, sheet!, physicsOf(bikeFromSheet(sheet!), sheet!));
}

// The half bar of a fork that dived, is harsher with it, and still has low-speed compression open.
const HALF = {
  setting: 'spring',
  end: 'front',
  direction: 'up',
  by: 0.5,
  unit: 'bar',
  putBack: 'no',
} as const;
const DIVES = {
  complaint: 'braking',
  'brake-dive': 'dives',
  'berm-entry@front': 'sinks',
  'chatter@front': 'through',
  'travel-ring@front': 'short',
};
const FIRM = [
  ['front.spring', { kind: 'air', pressure: '5.9 bar', min: '3.5 bar', max: '8.5 bar', maker: '5.4 bar' }],
  ['front.sag', { measured: '15%', wanted: '20%' }],
  ['units.pressure', 'bar'],
  ['front.tyre', { now: 1.7, wanted: 1.7 }],
  ['rear.tyre', { now: 1.8, wanted: 1.8 }],
  ['rear.spring', { kind: 'air', pressure: 12.2, maker: 12.2 }],
] as const;
const WORSE: Tried = { ...HALF, result: 'worse', for: ['chatter'] };
const BETTER: Tried = { ...HALF, result: 'better', for: ['brake-dive'] };

describe('a change with two results that is still on the bike', () => {
  const bench = benchWith(FIRM);

  it.each([
    ['worse first', [WORSE, BETTER]],
    ['better first', [BETTER, WORSE]],
    ['worse as a whole', [BETTER, { ...HALF, result: 'worse' }]],
    ['one that does not say whether it is on', [{ ...WORSE, putBack: 'unknown' }, BETTER]],
  ] as [string, Tried[]][])('is put back by what it was, and no further: %s', (_, tried) => {
    const { adjustments, because } = told(bench, tried, DIVES);
    expect(because).toBe('put-back');
    expect(adjustments[0]).toMatchObject({ id: 'put-back', setting: 'front.spring', by: -0.5, to: 5.4 });
    expect(adjustments[0]!.note).toContain('measure sag again');
    // The same again is no second step.
    expect(adjustments.slice(1).filter((a) => a.setting === 'front.spring')).toEqual([]);
  });

  it.each([
    ['the complaint', { ...BETTER, for: ['complaint'] }],
    ['the bike as a whole', { ...HALF, result: 'better' }],
  ] as [string, Tried][])('stays, to be weighed, where %s got better with it', (_, better) => {
    expect(told(bench, [better, WORSE], DIVES).because).not.toBe('put-back');
  });
});

describe('a spring step while a change of the spring is still on', () => {
  it('stops where it stood before that, and at the maker’s figure, and says so', () => {
    const [[path, spring], ...rest] = FIRM;
    const lower = benchWith([[path, { ...spring, maker: '4 bar' }], ...rest]);
    const step = { setting: 'front.spring', by: -1.15, unit: 'bar', from: 5.9, to: 4.75 } as const;
    const better = consult(
      model,
      lower,
      { id: 'x', tried: [{ ...HALF, result: 'better' }], answers: [], results: [], earlier: [] },
      { next: false, explain: 0, fit: false },
    ).tried.effects;
    expect(cutStep(step, better)).toMatchObject({ step: { by: -0.5, to: 5.4 }, kept: 0.5 / 1.15 });
    expect(cutStep({ ...step, by: -0.4 }, better)).toBeUndefined();
    const [first] = told(lower, [{ ...HALF, result: 'better' }], DIVES).adjustments;
    expect(first).toMatchObject({ setting: 'front.spring', by: -0.5, to: 5.4 });
    expect(first!.note).toMatch(/in one go, no further than where it was before the change/);
  });

  it('is not advised again where so much of it was ridden and rated worse', () => {
    const [[path, spring], ...rest] = FIRM;
    const lower = benchWith([[path, { ...spring, maker: '4 bar' }], ...rest]);
    const tried: Tried[] = [{ ...HALF, result: 'better' }];
    const before = told(lower, tried, DIVES);
    const [step] = before.adjustments;
    expect(step!.change).toBe('front.spring-0.5bar');
    const change = readDeed(step!.change!);
    const rode = { change, outcome: 'worse', kept: false, points: -0.1, error: 1.5 } as const;
    const after = told(lower, tried, DIVES, [rode]);
    expect(after.first).not.toBe(step!.id);
    expect(after.adjustments.map(({ change: advised }) => advised)).not.toContain(step!.change);
    expect(after.refused).toContainEqual(
      expect.objectContaining({ id: step!.id, why: 'it was tested and rated worse' }),
    );
  });

  it('goes to the maker’s figure first where that lies on the way', () => {
    const [first] = told(benchWith(FIRM), [], DIVES).adjustments;
    expect(first).toMatchObject({ setting: 'front.spring', by: -0.5, from: 5.9, to: 5.4 });
    expect(first!.note).toMatch(/only as far as the manufacturer's figure for now/);
  });
});

describe('a knob put back that the rider did not name by its circuit', () => {
  const OPENED: Tried = {
    setting: 'rebound',
    end: 'front',
    direction: 'open',
    by: 3,
    result: 'worse',
    putBack: 'no',
  };
  const WIDE = { complaint: 'corners', 'berm-exit': 'wide', 'trouble-end': 'front' };
  const knobs = (low: number, high: number) =>
    benchWith([
      [
        'front.rebound',
        { low: { clicks: 16, now: low, maker: 8 }, high: { clicks: 10, now: high, maker: 5 } },
      ],
    ]);

  it('is one knob, the one that was turned, where nobody knows which', () => {
    for (const bench of [bare, knobs(8, 5)])
      expect(told(bench, [OPENED], WIDE).adjustments[0]!.do).toBe(
        'Put back what made it worse: front rebound, 3 clicks in',
      );
  });

  it('is not the one that has no room for the way back', () => {
    expect(told(knobs(8, 2), [OPENED], WIDE).adjustments[0]).toMatchObject({
      setting: 'front.rebound.low',
      by: -3,
      to: 5,
    });
    expect(told(knobs(2, 5), [OPENED], WIDE).adjustments[0]).toMatchObject({
      setting: 'front.rebound.high',
      to: 2,
    });
  });

  it('is the only one there is, by its name, and never past its stop', () => {
    const lone = (now: number) => benchWith([['front.rebound', { clicks: 18, now, maker: 9 }]]);
    expect(told(lone(12), [OPENED], WIDE).adjustments[0]).toMatchObject({
      do: 'Put back what made it worse: front rebound',
      by: -3,
      to: 9,
    });
    const cut = told(lone(2), [OPENED], WIDE).adjustments[0]!;
    expect(cut).toMatchObject({ by: -2, to: 0 });
    expect(cut.note).toContain('only this much range is left');
  });
});

describe('a change with which it began', () => {
  const NUMB = { complaint: 'arms', hands: 'palms', 'recent-change': 'cockpit', 'steep-only': 'everywhere' };
  const undone = told(bare, [], { ...NUMB, 'change-effect': 'worse' });
  const [first] = undone.adjustments;

  it('is undone first, by its name, with the cautions of that change', () => {
    expect(undone.because).toBe('put-back');
    expect(first!.do).toBe('Put the last change back: bars, stem, levers or grips');
    const cautions = undone.cautions.map(({ id }) => id);
    expect(cautions).toContain('cockpit-torque');
    expect(cautions).toContain('brakes-check');
  });

  it('is told as the way out of what such a change brings, with odds that say no other', () => {
    const lead = undone.causes[0]!;
    expect(first).toMatchObject({ cures: lead.id, likely: lead.probability });
    expect(first!.feelsBetter!).toBeGreaterThan(first!.feelsWorse!);
  });

  it('is not named where it is not first', () => {
    const { because, adjustments } = told(bare, [], { ...NUMB, 'change-effect': 'unclear' });
    expect(because).not.toBe('put-back');
    expect(adjustments.map((a) => a.do).join()).not.toContain('change back:');
  });
});

describe('a new part with which it began', () => {
  const WOODEN = { hands: 'fingers', 'lever-fit': 'poor', 'recent-change': 'part', 'change-effect': 'worse' };

  it('stays on where a step for what was found by a look is far likelier, also unnamed', () => {
    for (const named of [{}, { 'new-part': 'brakes' }, { 'new-part': 'other' }]) {
      const { first, because } = told(bare, [], { ...WOODEN, ...named });
      expect(first).toBe('controls.fit');
      expect(because).not.toBe('put-back');
    }
  });

  it('is named by what it is, where nothing likelier speaks against it', () => {
    const { because, adjustments } = told(bare, [], {
      complaint: 'strange',
      onset: 'sudden',
      'recent-change': 'part',
      'change-effect': 'worse',
      'new-part': 'tyre',
    });
    expect(because).not.toBe('held-back');
    expect(adjustments[0]!.do).toMatch(/put the old one back: a tyre or an insert$/);
  });
});

describe('a change that made it worse beside what is likelier', () => {
  const AIR: Tried = {
    setting: 'spring',
    end: 'rear',
    direction: 'more',
    by: 40,
    unit: 'psi',
    result: 'worse',
    putBack: 'no',
  };
  const REAR = [
    ['rear.spring', { kind: 'air', pressure: '245 psi', min: '80 psi', max: '300 psi' }],
    ['rear.rebound', { low: { clicks: 16, now: 11, maker: 5 } }],
  ] as const;
  const KICKS = { lip: 'rear-over', 'push-return@rear': 'springs' };

  it('stays, and is listed after it, where the sag is right with it and the rebound was left behind', () => {
    const right = benchWith([...REAR, ['rear.sag', { measured: '30%', wanted: '30%' }]]);
    const { first, because, adjustments } = told(right, [AIR], KICKS);
    expect(first).toBe('rear.rebound.low.close');
    expect(because).not.toBe('put-back');
    expect(adjustments.slice(1).map(({ id }) => id)).toContain('put-back');
    expect(adjustments.find(({ id }) => id === 'put-back')!.helps).toBeLessThan(adjustments[0]!.helps / 2);
  });

  it('is not put back unread, where it is more than a step and nobody measured sag', () => {
    const unread = benchWith([...REAR, ['rear.sag', undefined]]);
    const big = told(unread, [AIR], {});
    expect(big).toMatchObject({ first: 'rear.sag.measure', because: 'measure-first' });
    expect(big.insteadOf?.id).toBe('put-back');
    expect(told(unread, [{ ...AIR, by: 8 }], {}).because).toBe('put-back');
  });

  it('stays where the gauge of what was changed was read and speaks for it', () => {
    const right = benchWith([...REAR, ['rear.sag', { measured: '30%', wanted: '30%' }]]);
    expect(told(right, [AIR], {}).because).not.toBe('put-back');
  });

  it("goes all the same where it left the maker's pressure, and nothing else should fix it", () => {
    const at = (pressure: string, maker: string) =>
      benchWith([
        ['rear.spring', { kind: 'air', pressure, maker, min: '80 psi', max: '300 psi' }],
        ['rear.rebound', { low: { clicks: 16, now: 11, maker: 5 } }],
        ['rear.sag', { measured: '30%', wanted: '30%' }],
      ]);
    const left = told(at('245 psi', '205 psi'), [AIR], {});
    expect(left.because).toBe('put-back');
    expect(left.adjustments[0]!.note).toContain('a known state');
    // The change went to the maker's figure, so the gauge stands.
    expect(told(at('245 psi', '245 psi'), [AIR], {}).because).not.toBe('put-back');
    expect(told(at('245 psi', '205 psi'), [AIR], KICKS).first).toBe('rear.rebound.low.close');
  });
});

describe('two changes that made it worse and are still on', () => {
  const SPACERS: Tried = {
    setting: 'ramp-up',
    end: 'front',
    direction: 'more',
    by: 2,
    result: 'worse',
    putBack: 'no',
  };
  const LESS: Tried = { ...SPACERS, setting: 'spring', direction: 'less', by: 12, unit: 'psi' };
  const CLOSED: Tried = { ...SPACERS, setting: 'compression.low', direction: 'close', by: 2 };
  const WALL = { complaint: 'bottoming', 'deep-travel@front': 'wall', 'travel-ring@front': 'unused' };
  const full = benchWith([
    [
      'front.spring',
      { kind: 'air', pressure: '76 psi', min: '40 psi', max: '120 psi', spacers: 4, 'spacers-max': 5 },
    ],
  ]);
  const firstOf = (tried: readonly Tried[]): string => told(full, tried, WALL).adjustments[0]!.do;

  it('go back together where one was made because of the other', () => {
    expect(firstOf([SPACERS, LESS])).toMatch(
      /ramp-up, 2 spacers less \(4 → 2 spacers\); front spring, 12 psi more \(76 → 88 psi\)$/,
    );
  });

  it('go back likeliest first, in whatever order they are told', () => {
    for (const tried of [
      [SPACERS, LESS],
      [SPACERS, CLOSED],
      [SPACERS, LESS, CLOSED],
    ] as const) {
      const one = firstOf(tried);
      expect(one).toContain('ramp-up');
      expect(firstOf([...tried].reverse())).toBe(one);
    }
  });
});

describe('a spring that goes back where its sag was told', () => {
  const tried: Tried = { setting: 'spring', end: 'front', direction: 'more', result: 'worse', putBack: 'no' };
  const SAG = { value: 0.11, unit: '%', band: [0.13, 0.22], length: { whole: 0.17, unit: 'mm' } } as const;
  const note = (measured?: CaseAnswer['measured']): string => {
    const kase = caseOf({ complaint: 'chatter', 'liveliness@front': 'wooden' }, { tried: [tried] });
    const sag: CaseAnswer = {
      question: 'sag@front',
      answer: 'less',
      sure: 'sure',
      ...(measured === undefined ? {} : { measured }),
    };
    const all = { ...kase, answers: [...kase.answers, sag] };
    const result = toResult(model, all, consult(model, bare, all, { next: false, explain: 3, fit: false }));
    return result.adjustments.find(({ id }) => id === 'put-back')!.note!;
  };
  it('has its goal in millimetres, and how far back from a pressure that was told', () => {
    const held = note({ ...SAG, at: { pressure: 102 * 6894.757, unit: 'psi' } });
    expect(held).toMatch(
      /by the sag you gave, about 102 → (8|9)\d psi.*about 17\.5 % \(30 of 170 mm\) is the goal/i,
    );
    expect(note(SAG)).toMatch(/go back a click.*about 17\.5 % \(30 of 170 mm\) is the goal/i);
  });
  it('goes back by feel, with sag measured again, where no number was told', () => {
    expect(note()).toMatch(/go back a click.*then measure sag again/i);
    expect(note()).not.toContain('goal');
  });
});
