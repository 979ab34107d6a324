/** What stops all tuning, with the rules that come along: also where nobody said at which end it is. */
import { describe, expect, it } from 'vitest';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import { consult } from '../../src/casework/consult.ts';
import { buildModel } from '../../src/diagnosis/model.ts';
import { baseRules } from '../support/base-rules.ts';

const { rules } = baseRules();
const model = buildModel(rules);
const bench = prepareBike(model);

function think(answers: Readonly<Record<string, string>>) {
  const kase = {
    id: 'x',
    answers: Object.entries({ 'safety.found': 'none', 'safety.brakes': 'good', ...answers }).map(
      ([question, answer]) => ({ question, answer, sure: 'sure' as const }),
    ),
    results: [],
    earlier: [],
  };
  return consult(model, bench, kase, { next: false, explain: 0, fit: false });
}

describe('a rebound knob without effect beside an end that bounces', () => {
  it.each([
    ['knob-effect@front', 'push-return@front', 'stop'],
    ['knob-effect@front', 'push-return@either', 'stop'],
    ['knob-effect@either', 'push-return@rear', 'stop'],
    ['knob-effect@either', 'push-return@either', 'stop'],
    ['knob-effect@front', 'push-return@rear', 'no stop'],
  ])('%s and %s: %s', (knob, push, verdict) => {
    const { advice, heard } = think({ [knob]: 'none', [push]: 'springs' });
    expect(advice.verdict === 'stop' ? 'stop' : 'no stop').toBe(verdict);
    expect(heard.dangers.map((d) => d.caution)).toEqual(verdict === 'stop' ? ['stop-undamped'] : []);
  });
  it('is no danger of an end where the knob works', () => {
    const said = { 'knob-effect@either': 'none', 'knob-effect@front': 'yes', 'push-return@front': 'springs' };
    expect(think(said).advice.verdict).not.toBe('stop');
    expect(think({ ...said, 'push-return@rear': 'springs' }).advice.verdict).toBe('stop');
  });
});

it('the repair of a danger at either end is named where it is likely, with the links of both ends', () => {
  const { advice } = think({
    'push-return@either': 'undamped',
    'knob-effect@rear': 'none',
    'service-age@rear': 'never',
    'recent-change': 'none',
  });
  expect(advice.verdict).toBe('stop');
  expect(rules.adjustments[advice.first!]?.id).toMatch(/damper/);
});
