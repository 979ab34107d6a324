/** What is not asked, because it was said, or the sheet has it. */
import { expect, it } from 'vitest';
import { prepareBike, type PreparedBike } from '../../src/advice/prepared-bike.ts';
import { readSheet } from '../../src/bike/form/read.ts';
import type { Case } from '../../src/casework/case.ts';
import { consult } from '../../src/casework/consult.ts';
import { withToldSprings } from '../../src/casework/told-spring.ts';
import { isAboutEnd } from '../../src/rulebase/no-complaint.ts';
import { exampleData } from '../bike/example.ts';
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

it('which spring an end has is asked until the sheet says it, or what was told can only be of one', () => {
  const asked = (bench: PreparedBike, tried: Case['tried'] = []): string[] => {
    const kase = caseOf({ complaint: 'bottoming', 'bottoming@front': 'hard' }, { tried });
    const told = withToldSprings(model.rules, kase);
    const here = told === undefined ? bench : prepareBike(model, undefined, undefined, undefined, told);
    const { open } = consult(model, here, kase, { next: true, explain: 0, fit: false });
    return open.flatMap(({ question }) => {
      const { id } = model.rules.questions[question]!;
      return id.startsWith('spring-kind@') ? [id] : [];
    });
  };
  expect(asked(bare).toSorted()).toEqual(['spring-kind@front', 'spring-kind@rear']);
  const air = {
    setting: 'front.spring',
    direction: 'more',
    unit: 'psi',
    result: 'worse',
    putBack: 'no',
  } as const;
  expect(asked(bare, [air])).toEqual(['spring-kind@rear']);
  expect(asked(prepareBike(model, readSheet(exampleData('all-knobs')).sheet!))).toEqual([]);
});
