/** Which words of the glossary stand on a screen, in the sense that the glossary gives them. */
import { describe, expect, it } from 'vitest';
import { termsIn } from '../../src/report/rules/glossary-text.ts';
import { rules } from '../support/told.ts';

const asked = (id: string): string[] => {
  const { ask, answers } = rules.questions.find((q) => q.id === id)!;
  return termsIn(rules.glossary, [ask, ...answers.map((a) => a.text)]).map(({ term }) => term);
};

describe('the words explained at a question', () => {
  it.each([
    ['safety.brakes', 'pumping', 'needs pumping'],
    ['pump@front', 'needs pumping', 'pumping'],
    ['pivot-check', 'click', 'play'],
    ['since-service', 'fade', 'click'],
  ])('%s: not %s, but %s', (question, other, meant) => {
    expect(asked(question)).not.toContain(other);
    expect(asked(question)).toContain(meant);
  });
  it('are taken in a phrase of their own only where the word stands nowhere else', () => {
    const glossary = [{ term: 'click', means: 'a step', notIn: ['soft click'] }];
    const found = (text: string): number => termsIn(glossary, [text]).length;
    expect(['a soft click', 'two clicks', 'a soft click, then two clicks'].map(found)).toEqual([0, 1, 1]);
  });
});
