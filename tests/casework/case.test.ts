import { readDeed } from '../../src/bike/deed.ts';
import { describe, expect, it } from 'vitest';
import { vocabularyOf } from '../../src/casework/case.ts';
import { readCase } from '../../src/casework/reading/read-case.ts';
import { rulesOf } from '../support/compile-text.ts';
import { SMALL } from '../support/small-rules.ts';

const vocabulary = vocabularyOf(rulesOf({ 'a.yaml': SMALL }));
const read = (raw: unknown) => readCase(raw, vocabulary, 'case.yaml');
const told = (raw: unknown): string[] =>
  read(raw).problems.map(
    (p) => `${[...p.path, ...(p.key === undefined ? [] : [p.key])].join('.')}: ${p.message} ${p.remedy}`,
  );

describe('reading a case', () => {
  it('reads what an interview needs to go on', () => {
    expect(read({ case: 1, interview: { about: ['row'], 'keep-asking': true } }).value!.interview).toEqual({
      about: ['row'],
      keepAsking: true,
    });
    expect(read({ case: 1, interview: { finished: true } }).value!.interview).toEqual({
      about: [],
      keepAsking: false,
      finished: true,
    });
    const declined = { 'not-meant': { pattern: ['one', 'row'] } };
    expect(read({ case: 1, interview: declined }).value!.interview).toMatchObject({
      notMeant: { pattern: ['one', 'row'] },
    });
    const begun = '2026-05-01T14:03:00Z';
    expect(read({ case: 1, interview: { begun } }).value!.interview).toMatchObject({ begun });
    expect(told({ case: 1, interview: { begun: '1 May' } })).toEqual([
      expect.stringMatching(/^interview\.begun: .*a time such as 2026-05-01T14:03:00Z/),
    ]);
  });
  it('reads answers with and without sureness, results, and rounds before', () => {
    const { value } = read({
      case: 1,
      id: 'a',
      said: 'it kicks',
      answers: { pattern: 'row', 'row.trend@front': { answer: 'worse', sure: 'fairly' } },
      results: [{ change: 'front.rebound.low+2', outcome: 'better' }],
      earlier: [
        { answers: { pattern: 'one' }, results: [{ change: 'rear.rebound.low.open', outcome: 'worse' }] },
      ],
    });
    expect(value).toEqual({
      id: 'a',
      said: 'it kicks',
      answers: [
        { question: 'pattern', answer: 'row', sure: 'sure' },
        { question: 'row.trend@front', answer: 'worse', sure: 'fairly' },
      ],
      results: [{ change: readDeed('front.rebound.low+2'), outcome: 'better', kept: true }],
      earlier: [
        {
          answers: [{ question: 'pattern', answer: 'one', sure: 'sure' }],
          results: [{ change: { name: 'rear.rebound.low.open' }, outcome: 'worse', kept: false }],
        },
      ],
    });
  });
  it('takes the place as its id when it has none', () =>
    expect(read({ case: 1 }).value!.id).toBe('case.yaml'));
});

describe('what is wrong with a case', () => {
  it.each([
    [
      'no map',
      'x',
      ': A case: found "x", expected a map. Write case: 1, id: and answers: as in the examples.',
    ],
    ['no format', {}, ": A case: case is missing. Write case: 1 (the format's number) on the first line."],
    [
      'a newer format',
      { case: 2 },
      'case: This case has format 2; this program reads format 1. Update earshot, or write it again with this version.',
    ],
    [
      'NaN as the format',
      { case: Number.NaN },
      "case: case: found NaN, expected 1. Write case: 1 (the format's number) on the first line.",
    ],
    [
      'an unknown key',
      { case: 1, anwsers: {} },
      'anwsers: A case: anwsers is not known here. Did you mean answers?',
    ],
    [
      'an unknown question',
      { case: 1, answers: { patern: 'row' } },
      'answers.patern: There is no question patern. Did you mean pattern?',
    ],
    [
      'a question that only every object has',
      { case: 1, answers: { constructor: 'row' } },
      'answers.constructor: There is no question constructor. See earshot rules show for the ids.',
    ],
    [
      'a question without its end',
      { case: 1, answers: { 'row.trend': 'worse' } },
      'answers.row.trend: There is no question row.trend. Say which end: row.trend@front or row.trend@rear or row.trend@either where that is not known.',
    ],
    [
      'a question of no end with one',
      { case: 1, answers: { 'pattern@front': 'row' } },
      'answers.pattern@front: There is no question pattern@front. It has no front or rear: write pattern.',
    ],
    [
      'an unknown answer',
      { case: 1, answers: { pattern: 'rows' } },
      'answers.pattern: pattern has no answer rows. Did you mean row?',
    ],
    [
      'a wrong type',
      { case: 1, answers: { pattern: true } },
      'answers.pattern: answers › pattern: found true, expected a text, or a list, or a map. Write the id of an answer, between quotes, or {answer: ..., sure: sure | fairly | guess}; what was measured as {measured: 12 %}.',
    ],
    [
      'a wrong sureness',
      { case: 1, answers: { pattern: { answer: 'row', sure: Number.NaN } } },
      'answers.pattern.sure: answers › pattern › sure: found NaN, expected one of sure, fairly, guess. Choose one of these.',
    ],
    [
      'a misspelt sureness',
      { case: 1, answers: { pattern: { answer: 'row', sure: 'fairley' } } },
      'answers.pattern.sure: answers › pattern › sure: found "fairley", expected one of sure, fairly, guess. Did you mean fairly?',
    ],
    [
      'an unknown topic of the complaint',
      { case: 1, interview: { about: ['rows'] } },
      'interview.about.0: There is no topic rows. Did you mean row?',
    ],
    [
      'an unknown key of the interview',
      { case: 1, interview: { abot: ['row'] } },
      'interview.abot: interview: abot is not known here. Did you mean about?',
    ],
    [
      'a flag that is a word',
      { case: 1, interview: { finished: 'yes' } },
      'interview.finished: interview › finished: found "yes", expected true or false. Write the value in that form.',
    ],
    [
      'answers that are a list',
      { case: 1, answers: ['row'] },
      'answers: answers: found a list, expected a map. Write each as question-id: answer.',
    ],
    [
      'a change of nothing known',
      { case: 1, results: [{ change: 'front.rebund.low+2', outcome: 'better' }] },
      'results.0.change: There is no setting front.rebund.low to change. Did you mean front.rebound.low?',
    ],
    [
      'an unknown outcome',
      { case: 1, results: [{ change: 'front.rebound.low+2', outcome: 'beter' }] },
      'results.0.outcome: results › entry 1 › outcome: found "beter", expected one of better, same, worse. Did you mean better?',
    ],
    [
      'a bike that is a number',
      { case: 1, bike: 5 },
      'bike: bike: found 5, expected a text, or a map. Write bike: park-bike.yaml.',
    ],
  ])('%s', (_, raw, expected) => expect(told(raw)).toEqual([expected]));

  it('tells everything at once', () => {
    expect(told({ case: 1, x: 1, answers: { a: 'b', pattern: 'c' }, results: 3 })).toHaveLength(4);
  });
  it('never lets control characters or endless texts through to the terminal', () => {
    const [line] = told({ case: 1, answers: { [`\u001b[2J${'x'.repeat(5000)}`]: 'row' } });
    const message = read({ case: 1, answers: { [`\u001b[2J${'x'.repeat(5000)}`]: 'row' } }).problems[0]!
      .message;
    expect(message).not.toContain('\u001b');
    expect(message.length).toBeLessThan(120);
    expect(line).toBeDefined();
  });
});

describe('a case with more wrong than anyone reads', () => {
  it('tells the first two hundred, and how many more there are', () => {
    const lines = told({
      case: 1,
      id: 'a',
      answers: Object.fromEntries(Array.from({ length: 1500 }, (_, i) => [`none-${i}`, 'x'])),
    });
    expect(lines).toHaveLength(201);
    expect(lines[199]).toContain('There is no question none-199');
    expect(lines[200]).toContain('1300 more problems are not listed.');
  });
});
