import { expect, it } from 'vitest';
import { phraseProblems } from '../../src/words/phrase-problems.ts';
import { rulesOf } from '../support/compile-text.ts';
import { SMALL } from '../support/small-rules.ts';

const withPhrase = (says: string) =>
  phraseProblems(
    rulesOf({ 'a.yaml': SMALL, 'b.yaml': `words:\n  - {id: w, says: ${says}, source: common-practice}\n` }),
  );

it('finds the ways of saying a phrase that no sentence can be searched for', () => {
  expect(withPhrase('[packs down, it is the]')).toEqual([
    {
      file: 'b.yaml',
      line: 2,
      col: 1,
      code: 'never-found',
      severity: 'error',
      message: 'w: "it is the" has no word that counts, so it is never found.',
      remedy: 'Add a word that carries the meaning, or take it out.',
    },
  ]);
  expect(withPhrase('[packs down, harsh]')).toEqual([]);
});

it('finds a choice of words that a hyphen cuts', () => {
  expect(withPhrase('[big drop/step-down]')).toMatchObject([
    {
      code: 'split-choice',
      severity: 'error',
      message: 'w: "big drop/step-down" has a word with a hyphen in a choice, which is cut at the hyphen.',
    },
  ]);
  expect(withPhrase('[big step-down, big drop/jump]')).toEqual([]);
});

it('finds a choice that a small word makes void, where one word is left of the phrase', () => {
  expect(withPhrase('[crashed yesterday/it]')).toMatchObject([
    {
      code: 'lost-choice',
      severity: 'error',
      message:
        'w: "crashed yesterday/it" has a small word in a choice, which is then not asked for; one word is left.',
    },
  ]);
  expect(withPhrase('[crashed yesterday/today, crashed on it, on/over drops hard]')).toEqual([]);
});
