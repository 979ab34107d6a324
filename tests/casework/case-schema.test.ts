/** The schema that editors get and the reader of cases take the same files. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseAllDocuments } from 'yaml';
import { describe, expect, it } from 'vitest';
import { vocabularyOf } from '../../src/casework/case.ts';
import { readCase } from '../../src/casework/reading/read-case.ts';
import { caseSchema } from '../../src/casework/reading/case-schema.ts';
import { baseRules } from '../support/base-rules.ts';

const vocabulary = vocabularyOf(baseRules().rules);
const folder = new URL('../../examples/cases', import.meta.url).pathname;
const examples = readdirSync(folder).flatMap((file) =>
  parseAllDocuments(readFileSync(join(folder, file), 'utf8')).map(
    (document, n) => [`${file} ${n + 1}`, document.toJS() as Record<string, unknown>] as const,
  ),
);
const both = (data: unknown): readonly [reader: boolean, schema: boolean] => [
  readCase(data, vocabulary, 'x').value !== undefined,
  caseSchema.safeParse(data).success,
];
const result = { change: 'front.rebound.low+2', outcome: 'better' };

describe('the schema of a case and its reader', () => {
  it.each(examples)('take the example %s', (_, data) => {
    expect(both(data)).toEqual([true, true]);
  });
  it.each<[string, Record<string, unknown>]>([
    ['a key that is not known', { answer: {} }],
    ['another format', { case: 2 }],
    ['an id that is a list', { id: [] }],
    ['a bike that is a number', { bike: 3 }],
    ['words that are a map', { said: {} }],
    ['answers in a list', { answers: [] }],
    [
      'a key of an answer that is not known',
      { answers: { complaint: { answer: 'corners', shure: 'sure' } } },
    ],
    ['a sureness that is not known', { answers: { complaint: { answer: 'corners', sure: 'very' } } }],
    ['results in a map', { results: {} }],
    ['an outcome that is not known', { results: [{ ...result, outcome: 'great' }] }],
    ['a key of a result that is not known', { results: [{ ...result, when: 'today' }] }],
    ['a result that says kept in words', { results: [{ ...result, kept: 'yes' }] }],
    ['points beyond the scale', { results: [{ ...result, points: 9, error: 0.5 }] }],
    ['a trial tried without what came of it', { tried: [{ change: 'front.rebound.low+2' }] }],
    ['an earlier round that is a text', { earlier: ['last week'] }],
    ['a key of a round that is not known', { earlier: [{ answer: {} }] }],
    ['notes with a key that is not known', { interview: { asked: [] } }],
  ])('refuse %s', (_, wrong) => {
    expect(both({ case: 1, id: 'x', ...wrong })).toEqual([false, false]);
  });
});
