/** What was tried, made no difference and is still on the bike: where it goes back first, before the first step, or not at all. */
import { describe, expect, it } from 'vitest';
import { prepareBike, type PreparedBike } from '../../src/advice/prepared-bike.ts';
import { staysOn, type WayBack } from '../../src/advice/way-back.ts';
import { saidOf } from '../../src/bike/form/said.ts';
import type { Tried } from '../../src/casework/case.ts';
import { consult } from '../../src/casework/consult.ts';
import { firstOf, type Result } from '../../src/report/result/result.ts';
import { toResult } from '../../src/report/result/to-result.ts';
import { textReport } from '../../src/report/text.ts';
import { bench as bare, caseOf, model, rules, SOUND } from '../support/told.ts';

const on = (has: object): PreparedBike =>
  prepareBike(model, undefined, undefined, undefined, saidOf(has, rules.adjusters).bike!);

function told(
  bench: PreparedBike,
  tried: readonly Tried[],
  answers: Readonly<Record<string, string>>,
): Result {
  const kase = caseOf({ ...SOUND, ...answers }, { tried });
  return toResult(model, kase, consult(model, bench, kase, { next: false, explain: 5, fit: false }));
}
const IN_VAIN = { result: 'same', putBack: 'no' } as const;
const flat = (result: Result): string => textReport(result, { rules }).replaceAll(/\s+/g, ' ');

describe('what was tried in vain and left in', () => {
  const FORK = on({ front: { rebound: 'one', compression: 'two' }, rear: { rebound: 'one' } });
  const SPACERS: Tried = { ...IN_VAIN, setting: 'front.ramp-up', direction: 'more', by: 2, unit: 'spacers' };
  const DIVES = {
    'run-trend': 'same',
    'brake-fade': 'no',
    weather: 'any',
    'brake-dive': 'dives',
    'when-loaded': 'braking',
    'travel-part@front': 'soggy',
    'deep-travel@front': 'wall',
    'spacers@front': 'more',
    'sag@front': 'target',
    'travel-ring@front': 'a-little',
    'ride-height@front': 'low',
    'liveliness@front': 'mushy',
  };

  it('goes back before the first step, by its number, with the cautions of that work', () => {
    const result = told(FORK, [SPACERS], DIVES);
    const first = firstOf(result)!;
    expect(first.id).toBe('front.compression.low.close');
    expect(first.before!.do).toMatch(/2 spacers less\. Then measure sag again\. One change at a time: /);
    expect(result.cautions.map(({ id }) => id)).toContain('air-out-first');
    expect(flat(result)).toContain(`${first.before!.do} Then: Close the front low-speed compression`);
    expect(result.adjustments.map(({ id }) => id)).not.toContain('front.ramp-up.add-spacer');
  });

  it('goes back as one step where it is several, each with its way on again', () => {
    const stiff: Tried = { ...IN_VAIN, setting: 'front.tyre', direction: 'more', by: 3, unit: 'psi' };
    const first = firstOf(told(FORK, [SPACERS, stiff], DIVES))!;
    expect(first.before!.do).toMatch(/3 psi less.*Together that is one step, back to a known state/);
    expect(first.wayBack).toMatch(
      /: make the change again.*: .*2 spacers more.*3 psi more|3 psi more.*2 spacers more/,
    );
    const alone = firstOf(told(FORK, [SPACERS], DIVES))!;
    expect(alone.before!.do).not.toContain('Together');
    expect(alone.wayBack).not.toContain('spacers');
  });

  it('goes back where the answers fit no cause, whatever it was for, but not where it was put back', () => {
    const rear = on({ rear: { rebound: 'one' } });
    const closed: Tried = {
      ...IN_VAIN,
      setting: 'rear.rebound.low',
      direction: 'close',
      by: 5,
      unit: 'clicks',
    };
    const thrown = {
      'landing@rear': 'bounced',
      'liveliness@rear': 'dead',
      'kick-when@rear': 'after',
      'return-speed@rear': 'deep',
    };
    const left = told(rear, [closed], thrown);
    expect(left.verdict).toBe('change');
    expect(firstOf(left)!.do).toBe('Put back what was tried and left in: rear rebound');
    const put = told(rear, [{ ...closed, putBack: 'yes' }], thrown);
    expect(put.adjustments.map(({ id }) => id)).not.toContain(firstOf(left)!.id);
  });

  it('stays where it helped, where it was put back, and where nobody said', () => {
    for (const tried of [
      { ...SPACERS, result: 'better' },
      { ...SPACERS, putBack: 'yes' },
      { ...SPACERS, putBack: 'unknown' },
    ] as const)
      expect(firstOf(told(FORK, [tried], DIVES))?.before).toBeNull();
  });

  it.each([
    [0.1, 0.6, true],
    [0.1, 0.4, false],
    [0.7, 0.6, false],
  ])('stays where what it was for is likelier than not: helps %d, harms %d', (helps, harms, stays) => {
    const { belief } = consult(model, bare, caseOf(SOUND), { next: false, explain: 0, fit: false });
    const steps = [{ setting: 'front.compression.low', by: 2, unit: 'clicks' }] as const;
    const back: WayBack = { helps, harms, likely: helps, steps, counted: true, after: 'same' };
    expect(staysOn({ model, bench: bare, belief, known: undefined }, back)).toBe(stays);
  });

  it.each([
    ['left the maker’s pressure, whatever sag says', { 'preload-place@rear': 'under' }, true],
    ['went to the maker’s pressure', { 'preload-place@rear': 'chart' }, false],
    ['left sag on target, and nobody read the pressure', {}, false],
  ])('goes back by its number before a repair where it %s', (_, pressure, goes) => {
    const less: Tried = { ...IN_VAIN, setting: 'rear.spring', direction: 'less', by: 20, unit: 'psi' };
    const has = { spring: 'air', rebound: 'one', compression: 'none', lever: 'open' };
    const result = told(on({ rear: has }), [less], {
      complaint: 'hits',
      'trouble-end': 'rear',
      'sag@rear': 'target',
      'lever@rear': 'middle',
      'lever-effect@rear': 'firm',
      'liveliness@rear': 'wooden',
      ...pressure,
    });
    expect(result.first).toBe('rear.lever.free');
    if (goes)
      expect(firstOf(result)!.before!.do).toMatch(/: rear spring, 20 psi more\. Then measure sag again/);
    else expect(firstOf(result)!.before).toBeNull();
  });

  it('waits behind a repair where it is clicks alone', () => {
    const opened: Tried = {
      ...IN_VAIN,
      setting: 'rear.rebound.low',
      direction: 'open',
      by: 2,
      unit: 'clicks',
    };
    const has = { spring: 'air', rebound: 'one', compression: 'none', lever: 'none' };
    const result = told(on({ rear: has }), [opened], {
      complaint: 'low',
      'trouble-end': 'rear',
      'air-loss@rear': 'loses',
      'sag@rear': 'more',
    });
    expect(result.first).toBe('rear.air-spring.service');
    expect(firstOf(result)!.before).toBeNull();
  });

  it('is no bar to a step that turns the same thing on', () => {
    const closed: Tried = {
      ...IN_VAIN,
      setting: 'front.compression.low',
      direction: 'close',
      by: 1,
      unit: 'clicks',
    };
    const result = told(FORK, [closed], DIVES);
    expect(result).toMatchObject({ first: 'front.compression.low.close' });
    expect(firstOf(result)!.before).toBeNull();
  });

  it('is the first step where it may itself be what is felt, and is said to be for that', () => {
    const air: Tried = { ...IN_VAIN, setting: 'rear.spring', direction: 'more', by: 30, unit: 'psi' };
    const result = told(bare, [air], {
      'sag@rear': 'less',
      'sag-repeat@rear': 'agree',
      'ride-height@rear': 'high',
      'liveliness@rear': 'wooden',
      'bottoming@rear': 'hard',
      'deep-travel@rear': 'last',
    });
    expect(result).toMatchObject({ first: 'tried.put-back', because: 'put-back' });
    expect(firstOf(result)).toMatchObject({
      cures: 'rear.spring.too-firm',
      setting: 'rear.spring',
      by: -30,
      unit: 'psi',
    });
    // What puts a known state back is no letting out of air to be refused.
    expect(result.refused.map(({ id }) => id)).not.toContain('rear.spring.softer');
  });

  it('goes back whole where the first step would take a part of it back', () => {
    const result = told(
      on({ rear: { rebound: 'one', compression: 'one' } }),
      [{ ...IN_VAIN, setting: 'rear.rebound', direction: 'close', by: 5, unit: 'clicks' }],
      { 'liveliness@rear': 'dead', 'repeated-hits.trend@rear': 'worse', 'push-return@rear': 'creeps' },
    );
    expect(result).toMatchObject({ first: 'tried.put-back', because: 'put-back' });
    expect(firstOf(result)).toMatchObject({ setting: 'rear.rebound.low', by: 5, unit: 'clicks' });
  });

  it('leads no card where hardly anything speaks for what it brings, but may go back all the same', () => {
    const result = told(bare, [{ ...SPACERS, setting: 'rear.ramp-up', by: 1 }], {});
    expect(result.first).toBeNull();
    expect(result.leftIn!.do).toMatch(/: .*1 spacer less\. Then measure sag again\. One change at a time: /);
    expect(flat(result)).toContain(result.leftIn!.do);
    expect(result.cautions.map(({ id }) => id)).toContain('air-out-first');
    const put = told(bare, [{ ...SPACERS, setting: 'rear.ramp-up', by: 1, putBack: 'yes' }], {});
    expect(put.leftIn).toBeUndefined();
  });

  it('leads no card where both brakes were looked at and only braking makes the rear skip', () => {
    const closed: Tried = {
      ...IN_VAIN,
      setting: 'rear.rebound.low',
      direction: 'open',
      by: 2,
      unit: 'clicks',
    };
    const result = told(on({ rear: { rebound: 'one', compression: 'none' } }), [closed], {
      'hit-pattern': 'neither',
      'brake-rear': 'skips',
      'brake-each': 'both',
      'push-return@rear': 'once',
    });
    for (const one of result.adjustments.slice(0, 1)) expect(one.likely ?? 1).toBeGreaterThanOrEqual(0.05);
    expect(result.first).not.toBe('tried.put-back');
    expect(result.leftIn!.do).toContain('rear rebound, 2 clicks in');
  });
});

describe('the rebound of a bike with a knob for each circuit', () => {
  const TWO = on({ rear: { rebound: 'two', compression: 'two' } });
  const knob: Tried = { ...IN_VAIN, setting: 'rear.rebound', direction: 'close', by: 5, unit: 'clicks' };
  const KICKS = {
    'landing@rear': 'bounced',
    'liveliness@rear': 'dead',
    'push-return@rear': 'uneven',
    'g-out@rear': 'springs',
    'knob-place-high@rear': 'open',
  };

  it('turned somewhere is a trial of neither knob, and the other one goes back', () => {
    const first = firstOf(told(TWO, [knob], KICKS))!;
    expect(first.id).toBe('rear.rebound.high.close');
    expect(first.heed).toBeNull();
    expect(first.before!.do).toMatch(/: rear rebound, 5 clicks out\. One change at a time/);
  });

  it('turned at the knob that is named is a trial of that one', () => {
    const { heed, before } = firstOf(told(TWO, [{ ...knob, setting: 'rear.rebound.high', by: 1 }], KICKS))!;
    expect(heed).toContain('tried before');
    expect(before).toBeNull();
  });
});
