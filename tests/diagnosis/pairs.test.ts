import { describe, expect, it } from 'vitest';
import { membersOf } from '../../src/diagnosis/hypotheses.ts';
import { ideasOf } from '../../src/diagnosis/pairs.ts';
import { priorOf, update } from '../../src/diagnosis/belief.ts';
import { baseModel, baseRules } from '../support/base-rules.ts';

const { rules } = baseRules();
const model = baseModel();
const at = (id: string): number => model.causeIndex.get(id)!;
const answer = (question: string, id: string) => {
  const q = model.questionIndex.get(question)!;
  return { question: q, answer: rules.questions[q]!.answers.findIndex((a) => a.id === id), sure: 1 };
};

describe('the two circuits of one damper are one idea', () => {
  const belief = update(model, priorOf(model), [
    answer('complaint', 'rows'),
    answer('repeated-hits.trend@front', 'worse'),
  ]);
  const ideas = ideasOf(model, belief);

  it('has the chance that either is off, counted over all sets', () => {
    const [low, high] = [at('front.rebound.low.too-slow'), at('front.rebound.high.too-slow')];
    let either = 0;
    belief.weights.forEach((w, set) => {
      if (membersOf(model.space, set).some((c) => c === low || c === high)) either += w;
    });
    const idea = ideas.find((i) => i.cause === low || i.cause === high)!;
    expect(idea.probability).toBeCloseTo(either, 12);
    expect(belief.causes[idea.cause]).toBeGreaterThanOrEqual(belief.causes[idea.other!]!);
  });

  it('lists every cause once, alone or in its pair', () => {
    const listed = ideas.flatMap((i) => [i.cause, ...(i.other === undefined ? [] : [i.other])]);
    expect(listed.sort((a, b) => a - b)).toEqual(rules.causes.map((_, c) => c));
  });

  it('gives the first few as it gives them all', () => {
    for (const most of [1, 3, 5, 20]) expect(ideasOf(model, belief, most)).toEqual(ideas.slice(0, most));
    const falling = ideas.map(({ probability }) => probability);
    expect(falling).toEqual(falling.toSorted((a, b) => b - a));
  });

  it('joins the same direction of one end only', () => {
    expect(ideas.filter(({ other }) => other !== undefined)).toHaveLength(8);
    for (const { cause, other } of ideas) {
      if (other === undefined) continue;
      const [a, b] = [rules.causes[cause]!, rules.causes[other]!];
      expect(a.direction).toBe(b.direction);
      expect(rules.settings[a.setting]!.end).toBe(rules.settings[b.setting]!.end);
    }
  });
});
