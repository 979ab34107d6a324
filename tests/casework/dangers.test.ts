/** What stops all tuning, with the rules that come along: also where nobody said at which end it is. */
import { describe, expect, it } from 'vitest';
import { consult } from '../../src/casework/consult.ts';
import { bench, caseOf, model, rules, SOUND } from '../support/told.ts';

function think(answers: Readonly<Record<string, string>>) {
  return consult(model, bench, caseOf({ ...SOUND, ...answers }), { next: false, explain: 0, fit: false });
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

it('is heard where it is the second of two answers, and of the end that is left', () => {
  const kase = {
    id: 'x',
    answers: [
      { question: 'tread-check@front', answer: 'fine', sure: 'sure' as const },
      { question: 'tread-check@either', answer: 'worn', also: ['casing'], sure: 'sure' as const },
    ],
    results: [],
    earlier: [],
  };
  const { advice, heard } = consult(model, bench, kase, { next: false, explain: 0, fit: false });
  expect(advice.verdict).toBe('stop');
  expect(heard.known.also?.get('tread-check@rear')).toEqual(['casing']);
});

it.each([
  ['headset-check', 'loose', 'headset.adjust'],
  ['pivot-check', 'play', 'rear.pivots.tighten'],
  ['wheel-check@rear', 'spokes', 'rear.wheel.true'],
  ['tread-check@front', 'casing', 'front.tread.replace'],
])(
  'play found by hand stops the ride with its repair, and a sound look does not: %s',
  (id, answer, repair) => {
    const found = think({ [id]: answer });
    expect(found.advice.verdict).toBe('stop');
    expect(rules.adjustments[found.advice.first!]?.id).toBe(repair);
    const { answers, default: sound } = rules.questions.find((q) => q.id === id)!;
    expect(think({ [id]: answers[sound]!.id }).heard.dangers).toEqual([]);
  },
);

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

describe('a crash told at the first question', () => {
  it.each(['none', 'tyre', 'several'])('is looked at where the rider says of changes: %s', (changed) => {
    const told = { 'safety.found': 'crashed', 'recent-change': changed };
    expect(think(told).advice.first).toBe(rules.adjustments.findIndex(({ id }) => id === 'crash.look-over'));
    const bent = think({ ...told, 'crash-check': 'bent' });
    expect(bent.heard.contradictions).toEqual([]);
    expect(bent.advice.verdict).toBe('stop');
  });
});

describe('play that a hand found at the headset', () => {
  const play = { 'safety.found': 'loose', 'headset-check': 'loose' };
  const cautions = (
    answers: Readonly<Record<string, string>>,
    sure: 'sure' | 'fairly' | 'guess' = 'sure',
  ) => {
    const told = { ...SOUND, ...answers };
    const kase = caseOf(told);
    const heard = kase.answers.map((one) => (one.question === 'play-where' ? { ...one, sure } : one));
    const { dangers } = consult(
      model,
      bench,
      { ...kase, answers: heard },
      { next: false, explain: 0, fit: false },
    ).heard;
    return dangers.map(({ caution }) => caution);
  };
  it.each(['sure', 'fairly'] as const)('is that of the pads where that was felt: %s', (sure) => {
    expect(cautions({ ...play, 'play-where': 'pads' }, sure)).toEqual([]);
  });
  it('stops the ride where the pads are only guessed at', () => {
    expect(cautions({ ...play, 'play-where': 'pads' }, 'guess')).toEqual(['stop-loose', 'stop-play']);
  });
  it.each([
    ['none', ['stop-play']],
    ['crack', ['stop-crack', 'stop-play']],
    ['several', ['stop-several', 'stop-play']],
  ])('stops the ride where the answer of the pads does not apply: %s', (found, all) => {
    expect(cautions({ ...play, 'safety.found': found, 'play-where': 'pads' })).toEqual(all);
  });
});
