import { expect, it } from 'vitest';
import { cautionsFor, cautionsOf } from '../../src/advice/cautions.ts';
import type { Caution } from '../../src/rulebase/compiled.ts';

const caution = (id: string, level: Caution['level'], show: Caution['show']): Caution => ({
  id,
  level,
  text: id,
  show,
  source: 'common-practice',
  status: 'trial',
  at: 'test/a.yaml:1',
});
const rules = {
  cautions: [
    caution('manual', 'note', 'always'),
    caution('stops', 'care', 'with'),
    caution('first-run', 'care', 'always'),
    caution('loose', 'stop', 'with'),
    caution('something', 'stop', 'alone'),
    caution('gently', 'care', 'alone'),
    caution('over-the-bars', 'care', 'with'),
  ],
  adjustments: [['stops', 'over-the-bars'], ['stops'], ['stops']].map((cautions) => ({ cautions })),
} as unknown as Parameters<typeof cautionsFor>[0];
const shown = (wanted: string[], changing: boolean): string[] =>
  cautionsFor(rules, new Set(wanted), changing).map(({ id }) => id);

it('are those asked for and those shown always, most serious first, then in the order of the rules', () => {
  expect(shown(['loose', 'stops'], true)).toEqual(['loose', 'stops', 'first-run', 'manual']);
});

it('are only those asked for where nothing is changed', () => {
  expect(shown(['loose'], false)).toEqual(['loose']);
  expect(shown([], false)).toEqual([]);
});

it('say that the ride is over only where nothing says why', () => {
  expect(shown(['something'], false)).toEqual(['something']);
  expect(shown(['loose', 'something'], false)).toEqual(['loose']);
  // Of what only asks for care, that of a step is the closer word; what is shown always is none.
  expect(shown(['gently'], true)).toEqual(['gently', 'first-run', 'manual']);
  expect(shown(['gently', 'stops'], true)).toEqual(['stops', 'first-run', 'manual']);
  expect(shown(['something', 'stops'], true)).toEqual(['something', 'stops', 'first-run', 'manual']);
});

it('are of those equally serious first the one that the fewest adjustments ask for', () => {
  expect(shown(['stops', 'over-the-bars'], true)).toEqual(['over-the-bars', 'stops', 'first-run', 'manual']);
});

it('are what is said of a likely cause after those of the step, and before those shown always', () => {
  const ids = cautionsFor(rules, new Set(['stops']), true, ['over-the-bars', 'stops']).map(({ id }) => id);
  expect(ids).toEqual(['stops', 'over-the-bars', 'first-run', 'manual']);
});

it('are those of a change, and those that an answer asks for', () => {
  const change = {
    cautions: ['one'],
    cautionsWhen: [
      {
        id: 'two',
        answers: [
          { on: 'question' as const, id: 'last', values: ['spacer', 'volume'] },
          { on: 'question' as const, id: 'again', values: ['yes'] },
        ],
      },
    ],
  };
  const said = (answers: Record<string, string>, also: Record<string, string[]> = {}) =>
    cautionsOf(change, {
      answers: new Map(Object.entries(answers)),
      also: new Map(Object.entries(also)),
      bike: () => undefined,
    });
  expect(said({ last: 'volume', again: 'yes' })).toEqual(['one', 'two']);
  expect(said({ last: 'tyre', again: 'yes' }, { last: ['spacer'] })).toEqual(['one', 'two']);
  expect(said({ last: 'spacer' })).toEqual(['one']);
  expect(cautionsOf(change, undefined)).toEqual(['one']);
});
