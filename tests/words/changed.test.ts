/** A change that was told without what came of it. Which setting is which kind of change: common practice, no source. */
import { expect, it } from 'vitest';
import { changesAsReadings } from '../../src/words/follows/changed.ts';
import { buildHearing } from '../../src/words/hearing.ts';
import { baseRules, baseWords } from '../support/base-rules.ts';

const hear = buildHearing(baseRules().rules, baseWords());
const changed = (said: string): string[] =>
  hear(said)
    .readings.flatMap((r) => r.candidates)
    .filter(({ question }) => question === 'recent-change')
    .map(({ answer }) => answer);

it.each([
  ['took out a spacer and now it uses all its travel', ['spacer']],
  ['I opened the rear rebound two clicks on Sunday', ['setting']],
  ['I dropped 5 psi out of the fork', ['setting']],
])('%s: %j', (said, answers) => {
  expect(changed(said)).toEqual(answers);
});

it.each([
  ['with what came of it it is something tried', 'I opened the rear rebound two clicks and it got better'],
  ['only thought of it is none', 'Should I open the rear rebound two clicks?'],
  ['that says only how something is tells none', 'The rear is two clicks faster than the chart'],
])('%s', (_, said) => {
  expect(changed(said)).toEqual([]);
});

it('stands where its words do, at the end that they name', () => {
  const said = 'It dives. I opened the front rebound two clicks';
  const reading = hear(said).readings.find((r) => r.candidates.some((c) => c.question === 'recent-change'));
  expect(reading).toMatchObject({ end: 'front', position: said.indexOf('opened') });
});

it('of two kinds is asked for, and so is nothing that was told already', () => {
  const change = (setting: string) => ({
    text: setting,
    setting,
    direction: 'open' as const,
    spans: [[0, 5]] as const,
  });
  const offer = changesAsReadings(baseRules().rules.questions);
  const one = offer([change('rebound'), change('compression')], []);
  expect(one.map((r) => r.candidates)).toEqual([
    [{ question: 'recent-change', answer: 'setting', confirmed: false }],
  ]);
  expect(offer([change('rebound'), change('ramp-up')], [])).toEqual([]);
  expect(offer([change('rebound')], one)).toEqual([]);
});
