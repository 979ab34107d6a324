import { expect, it } from 'vitest';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import { consult } from '../../src/casework/consult.ts';
import { isAboutEnd } from '../../src/casework/which-end.ts';
import { buildModel } from '../../src/diagnosis/model.ts';
import { baseRules } from '../support/base-rules.ts';

const model = buildModel(baseRules().rules);
const bare = prepareBike(model);

it('front or rear is not asked of somebody who spoke of one end alone, and is of one who spoke of both', () => {
  const isAsked = (answers: Record<string, string>): boolean => {
    const said = { complaint: 'hits', 'hit-pattern': 'one', ...answers };
    const given = Object.entries(said).map(([question, answer]) => ({
      question,
      answer,
      sure: 'sure' as const,
    }));
    const kase = { id: 'x', answers: given, results: [], earlier: [] };
    const { open } = consult(model, bare, kase, { next: true, explain: 0, fit: false });
    return open.some(({ question }) => isAboutEnd(model.rules.questions[question]!));
  };
  expect(isAsked({})).toBe(true);
  expect(isAsked({ 'square-edge@front': 'spike' })).toBe(false);
  expect(isAsked({ 'square-edge@front': 'spike', 'chatter@rear': 'through' })).toBe(true);
});
