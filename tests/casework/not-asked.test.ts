/** What is not asked, because it was said, or the sheet has it. */
import { expect, it } from 'vitest';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import { readSheet } from '../../src/bike/form/read.ts';
import { consult } from '../../src/casework/consult.ts';
import { isAboutEnd } from '../../src/rulebase/no-complaint.ts';
import { caseOf } from '../support/told.ts';
import { bareBike, baseModel } from '../support/base-rules.ts';

const model = baseModel();
const bare = bareBike();

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

it('roughly where a knob stands is asked until the sheet has its number and the figure to hold it against', () => {
  const isAsked = (knob: object): boolean => {
    const { sheet } = readSheet({
      bike: 1,
      id: 'x',
      kind: 'enduro',
      front: { travel: '160 mm', spring: { kind: 'air' }, rebound: { low: { clicks: 16, ...knob } } },
      rear: { travel: '160 mm', spring: { kind: 'air' } },
    });
    const said = { complaint: 'hits', 'hit-pattern': 'one', 'square-edge@front': 'spike' };
    const wishes = { next: true, explain: 0, fit: false };
    const { open } = consult(model, prepareBike(model, sheet!), caseOf(said), wishes);
    return open.some(({ question }) => model.rules.questions[question]!.id === 'knob-place@front');
  };
  expect([isAsked({}), isAsked({ now: 8 }), isAsked({ now: 8, maker: 8 })]).toEqual([true, true, false]);
});
