/** What a pack says of dangerous answers: every id is looked up, and both ends are kept where the end is not known. */
import { expect, it } from 'vitest';
import { compileTexts, rulesOf } from '../support/compile-text.ts';
import { SMALL } from '../support/small-rules.ts';

const CAUTION = '{level: care, text: Take it easy., show: with, source: common-practice, status: trial}';
const question = (id: string, more: string): string =>
  `  - {id: ${id}, for: [front, rear], ask: "{end}?", plain: "{end}?", help: Look., how: stand, minutes: 1, topic: ${id}, answers: {fine: fine, none: none, bounces: bounces}, default: fine, when-several: any, usually: {none: rarely, bounces: rarely}, points-to: {none: {"{end}.rebound.low.too-fast": usually}}, confusable-with: [{id: "{end}.rebound.low.too-fast", tell: nothing tells}], source: common-practice, status: trial${more}}\n`;
const pack = (more: string) => ({
  'a.yaml': SMALL,
  'b.yaml': `cautions:\n${['easy', 'easier'].map((id) => `  - ${CAUTION.replace('{', `{id: ${id}, `)}`).join('\n')}\nquestions:\n${question('push', '')}${question('knob', more)}`,
});

it('tells a question or an answer that is not there, with place and remedy', () => {
  const { problems } = compileTexts(
    pack(', dangerous: {none: {caution: easy, with: {"psh@{end}": bounces, "push@{end}": [bounce]}}}'),
  );
  const errors = problems.filter((p) => p.severity === 'error');
  expect(errors.map(({ file, code, message, remedy }) => [file, code, message, remedy])).toEqual([
    [
      'b.yaml',
      'unknown-id',
      'dangerous asks for psh@front, which is no question.',
      'Did you mean push@front?',
    ],
    ['b.yaml', 'unknown-id', 'push@front has no answer bounce.', 'Did you mean bounces?'],
  ]);
});

it('keeps cautions, and dangers beside an answer of either end, where the end is not known', () => {
  const { questions } = rulesOf(
    pack(', cautions: {bounces: easier}, dangerous: {none: {caution: easy, with: {push: bounces}}}'),
  );
  const either = questions.find((q) => q.id === 'knob@either')!;
  expect(either.cautions).toEqual({ bounces: 'easier' });
  expect(either.dangerousWith).toEqual({
    none: {
      caution: 'easy',
      beside: { 'push@front': ['bounces'], 'push@either': ['bounces'], 'push@rear': ['bounces'] },
    },
  });
});
