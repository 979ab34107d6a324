import { describe, expect, it } from 'vitest';
import { buildMatcher } from '../../../src/words/matcher.ts';
import { unconfirmedOf } from '../../../src/casework/said/unconfirmed.ts';
import { rulesOf } from '../../support/compile-text.ts';
import { PHRASES } from '../../words/fixture.ts';

const rules = rulesOf({ 'a.yaml': PHRASES });
const matcher = buildMatcher(rules);
const lines = (text: string) => unconfirmedOf(matcher.match(text), rules);

describe('free text in a report', () => {
  it('gives a line for each answer it could mean', () => {
    expect(lines('the fork sits low')).toEqual([
      {
        phrase: 'sits low',
        question: 'height@front',
        answer: 'low',
        note: 'could mean "low". Ask: "Does the front ride high or low?"',
      },
    ]);
    expect(lines('it kicks').map((l) => l.note)).toEqual([
      'could mean "it kicks". Ask: "Does the front or rear kick?"',
    ]);
  });

  it('gives one line with the questions for words that mean opposite things', () => {
    expect(lines('the rear is harsh')).toEqual([
      {
        phrase: 'harsh',
        question: null,
        answer: null,
        note: 'can mean different things. Ask: "One hit or a row?" "Does the rear kick?"',
      },
    ]);
  });

  it('says that something was denied', () => {
    expect(lines('the rear does not kick')).toEqual([
      {
        phrase: 'kick',
        question: 'kick@rear',
        answer: 'no',
        note: 'heard as a no, could mean "no". Ask: "Does the rear kick?"',
      },
    ]);
    expect(lines('no harshness')).toEqual([
      { phrase: 'harshness', question: null, answer: null, note: 'heard as a no; nothing to count' },
    ]);
  });

  it('gives no line for the end alone, but one where the end is all that a danger says', () => {
    expect(lines('the fork knocks')).toEqual([]);
    const stops = {
      ...rules,
      questions: rules.questions.map((q) => (q.id === 'noise' ? { ...q, dangerous: { front: 'stop' } } : q)),
    };
    const found = unconfirmedOf(matcher.match('the fork knocks'), stops);
    expect(found).toMatchObject([{ question: 'noise', answer: 'front', danger: true }]);
  });

  it('gives nothing for text without known words', () => {
    expect(lines('lovely weather')).toEqual([]);
  });
});
