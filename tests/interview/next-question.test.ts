import { describe, expect, it } from 'vitest';
import { consult } from '../../src/casework/consult.ts';
import { isAboutEnd } from '../../src/rulebase/no-complaint.ts';
import { nextQuestion } from '../../src/interview/next-question.ts';
import { canBeEither } from '../../src/interview/answers.ts';
import { begin, step } from '../../src/interview/session.ts';
import { toCase, type Interview } from '../../src/interview/state.ts';
import type { Question } from '../../src/rulebase/compiled.ts';
import { answersOf, bench, model, SOUND } from '../support/told.ts';

/** The questions that come after these answers, each one left unanswered. */
function asked(answers: Readonly<Record<string, string>>, count: number): Question[] {
  let [state]: readonly [Interview, ...unknown[]] = begin(model, bench, {
    id: 'x',
    answers: answersOf({ ...SOUND, ...answers }),
  });
  const out: Question[] = [];
  while (out.length < count && state.current !== null) {
    out.push(model.rules.questions[model.questionIndex.get(state.current)!]!);
    [state] = step(model, bench, state, { type: 'cannot-tell' });
  }
  return out;
}

describe('the next question', () => {
  it.each([
    ['rear', { 'landing@rear': 'bounced', 'push-return@rear': 'springs' }, 'front'],
    ['front', { 'hit-pattern': 'row', 'repeated-hits.trend@front': 'worse' }, 'rear'],
  ])('is not about the other end where all that was noticed is about the %s', (_, answers, other) => {
    const ends = asked(answers, 4).map(({ end }) => end);
    expect(ends.length).toBeGreaterThan(0);
    expect(ends).not.toContain(other);
  });
  it('is the sag of both ends of a bike that was never set for its rider, wherever the trouble is', () => {
    const rear = { 'landing@rear': 'bounced', 'push-return@rear': 'springs', 'recent-change': 'none' };
    const ids = asked({ ...rear, 'last-set@rear': 'never' }, 2).map(({ id }) => id);
    expect(ids.toSorted()).toEqual(['sag@front', 'sag@rear']);
    // What no answer about an end calls for waits for the other end; a brake that may fade goes before both.
    const hot = asked({ ...rear, weather: 'hot' }, 2).map(({ id }) => id);
    expect(hot).toEqual(['brake-fade', 'return-hot@rear']);
  });
  it('is which end it is where only a look on the stand found something, also of whoever told it in own words', () => {
    const isAsked = (answers: Readonly<Record<string, string>>): boolean => {
      const [state] = begin(model, bench, {
        id: 'x',
        said: 'it beats me up',
        answers: answersOf({ ...SOUND, 'hit-pattern': 'one', ...answers }),
      });
      const c = consult(model, bench, toCase(state), { next: true, explain: 0, fit: false });
      const open = c.open.filter((gain) => isAboutEnd(model.rules.questions[gain.question]!));
      return nextQuestion(model, state, { ...c, open }) !== undefined;
    };
    expect(isAsked({ 'push-return@rear': 'springs' })).toBe(true);
    expect(isAsked({ 'push-return@rear': 'springs', 'square-edge@front': 'spike' })).toBe(false);
  });
  it('looks at the bike once the rider could not tell twice', () => {
    const [first, second, third] = asked({ 'hit-pattern': 'row', 'repeated-hits.trend@front': 'worse' }, 3);
    expect([first!.how, second!.how]).toEqual(['recall', 'recall']);
    expect(third!.how).toBe('stand');
  });
  it('does not take one answer without its end for two that the rider could not tell', () => {
    let [state] = begin(model, bench, {
      id: 'x',
      answers: answersOf({ ...SOUND, complaint: 'corners' }),
    });
    const at = (): Question => model.rules.questions[model.questionIndex.get(state.current!)!]!;
    while (!canBeEither(model, state.current!))
      [state] = step(model, bench, state, { type: 'answer', answer: at().answers[at().default]!.id });
    const { answers, default: right } = at();
    for (const { id } of answers.filter((_, a) => a !== right)) {
      const [next] = step(model, bench, state, { type: 'answer', answer: id, end: 'either' });
      expect(next.steps.slice(-2).map(({ answer }) => answer)).toEqual(['cannot-tell', 'cannot-tell']);
      expect(model.rules.questions[model.questionIndex.get(next.current!)!]!.how).toBe('recall');
    }
  });
});
