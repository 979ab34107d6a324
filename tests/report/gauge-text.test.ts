/** What a number that was read is said to be, and what it is held against. */
import { describe, expect, it } from 'vitest';
import type { Gauge } from '../../src/bike/gauge/gauge.ts';
import { onTargetText, readBackText } from '../../src/report/gauge-text.ts';
import { baseRules } from '../support/base-rules.ts';

const { rules } = baseRules();
const gaugeOf = (id: string): Gauge => rules.questions.find((q) => q.id === id)!.gauge!;
const BAR = 1e5;

describe('a number that was read', () => {
  it('is never called on target by what is usual for a weight', () => {
    const said = onTargetText(gaugeOf('tyre-target@rear'), 'rear', undefined, rules, 83)!;
    expect(said).toMatch(/^Usual for 83 kg: [\d.]+ psi; [\d.]+ to [\d.]+ psi is inside of what is usual\./);
    const read = { value: 1.55 * BAR, unit: 'bar', band: [1.4 * BAR, 2.33 * BAR] } as const;
    expect(readBackText(read, 'on target', true)).toBe(
      '1.55 bar: inside of what is usual for the weight (1.4 to 2.33 bar); your own usual figure goes before it',
    );
  });

  it('is on target, or off it, by a figure', () => {
    const said = onTargetText(gaugeOf('sag@front'), 'front', undefined, rules)!;
    expect(said).toContain('Usual: 15 to 20 % of the travel; 13 to 22 % is on target.');
    const read = { value: 0.43, unit: '%', band: [0.13, 0.22] } as const;
    expect(readBackText(read, 'too much sag')).toBe('43 %: too much sag (on target is 13 to 22 %)');
    const inLength = { ...read, length: { whole: 0.12, unit: 'mm' } } as const;
    expect(readBackText(inLength, 'too much sag')).toContain('(on target is 13 to 22 %, 15.5 to 26.5 mm)');
  });
});
