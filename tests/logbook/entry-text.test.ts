import { describe, expect, it } from 'vitest';
import type { OwnSetting } from '../../src/bike/own-setting.ts';
import { asRead, asWritten, type WrittenEntry } from '../../src/logbook/entry-form.ts';

const PADS: OwnSetting = {
  id: 'front.pads',
  end: 'front',
  key: 'pads',
  words: 'front pads',
  unit: 'spacers',
  range: [0, 4],
  grain: 1,
  stale: [],
  find: 'Count them.',
};
const entry = (change: string): WrittenEntry => ({
  entry: 1,
  at: '2026-05-01T10:00:00Z',
  kind: 'result',
  result: { change, setting: 'x', outcome: 'same', kept: false },
});
const changeOf = (text: string, own: readonly OwnSetting[] = []) => asRead(entry(text), own).result!.change;

describe('what was tried, as the log has it', () => {
  it('is read whether its unit stands there or not', () => {
    const step = { changes: [{ setting: 'front.ramp-up', by: 1, unit: 'spacers' }] };
    expect(changeOf('front.ramp-up+1spacers')).toEqual(step);
    expect(changeOf('front.ramp-up+1')).toEqual(step);
  });

  it("has the unit of the pack's setting; without the pack it is taken for a knob", () => {
    expect(changeOf('front.pads+1', [PADS])).toEqual({
      changes: [{ setting: 'front.pads', by: 1, unit: 'spacers' }],
    });
    expect(changeOf('front.pads+1')).toEqual({ changes: [{ setting: 'front.pads', by: 1, unit: 'clicks' }] });
  });

  it.each(['service', 'front.rebound.low+2psi', 'front.pads+1stones'])(
    'keeps its text where it is no change: %s',
    (text) => {
      expect(changeOf(text)).toEqual({ name: text });
    },
  );

  it.each(['front.rebound.low+2', 'rear.spring-5psi,front.rebound.low-1', 'front.pads-2', 'service'])(
    'is written as it was read: %s',
    (text) => {
      expect(asWritten(asRead(entry(text), []))).toEqual(entry(text));
    },
  );
});
