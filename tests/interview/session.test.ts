import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import { buildModel } from '../../src/diagnosis/model.ts';
import { canBeEither } from '../../src/interview/answers.ts';
import type { Event } from '../../src/interview/events.ts';
import { begin, step } from '../../src/interview/session.ts';
import { look } from '../../src/interview/settle.ts';
import {
  answersGiven,
  askedOn,
  toCase,
  toCaseFile,
  type Interview,
  type Step,
} from '../../src/interview/state.ts';
import { hear } from '../../src/casework/evidence.ts';
import { vocabularyOf } from '../../src/casework/case.ts';
import { CANNOT_TELL, NOT_NOW } from '../../src/rulebase/compiled.ts';
import { readCase } from '../../src/casework/reading/read-case.ts';
import { rulesOf } from '../support/compile-text.ts';
import { bareBike, baseModel } from '../support/base-rules.ts';
import { SMALL } from '../support/small-rules.ts';

const rules = rulesOf({ 'a.yaml': SMALL });
// Ask everything: the small rules would otherwise be settled after one answer.
const model = buildModel({
  ...rules,
  numbers: { ...rules.numbers, asking: { ...rules.numbers.asking, enough: 0, 'least-bits': 0 } },
});
const bench = prepareBike(model);
const [start] = begin(model, bench, { id: 'x' });

function play(events: readonly Event[], from: Interview = start): Interview {
  return events.reduce((state, event) => step(model, bench, state, event)[0], from);
}

const answerOf = (state: Interview, pick: number): string => {
  const q = model.rules.questions[model.questionIndex.get(state.current ?? 'pattern')!]!;
  return q.answers[pick % q.answers.length]!.id;
};

describe('the interview', () => {
  it('asks first what tells most', () => {
    expect(start.current).toBe('pattern');
    expect(begin(model, bench, { id: 'x' })[1]).toEqual([{ do: 'ask', question: 'pattern' }]);
  });
  it('asks one more question where one is named, and nothing of a name it does not know', () => {
    const over = play([{ type: 'finish' }]);
    expect(play([{ type: 'ask', question: 'pattern' }], over).current).toBe('pattern');
    expect(play([{ type: 'ask', question: 'no-such' }], over)).toEqual(over);
  });
  it('keeps whom it speaks to', () => {
    const [rider] = begin(model, bench, {
      id: 'x',
      interview: { about: [], keepAsking: false, for: 'rider' },
    });
    expect(toCaseFile(rider)['interview']).toEqual({ for: 'rider' });
    const back = readCase(toCaseFile(rider), vocabularyOf(rules), 'x').value!;
    expect(begin(model, bench, back)[0].for).toBe('rider');
    expect(
      readCase({ ...toCaseFile(rider), interview: { for: 'me' } }, vocabularyOf(rules), 'x').problems,
    ).toHaveLength(1);
  });
  it('writes what was tried and ridden as it is read', () => {
    const tried = [{ change: 'front.rebound.low+2', result: 'same', 'put-back': 'yes' }];
    const results = [{ change: 'rear.spring-5psi', outcome: 'worse', kept: false, 'changed-after': true }];
    const earlier = [{ changed: true, tried, answers: { pattern: 'row' }, results }];
    const file = { case: 1, id: 'x', changed: true, tried, answers: { pattern: 'row' }, results, earlier };
    const read = readCase(file, vocabularyOf(rules), 'x');
    expect(read.problems).toEqual([]);
    expect(read.value!.results[0]!.change).toEqual({
      changes: [{ setting: 'rear.spring', by: -5, unit: 'psi' }],
    });
    expect(toCaseFile(begin(model, bench, read.value!)[0])).toMatchObject(file);
  });
  it('opens a gated question when its gate opens', () => {
    expect(play([{ type: 'answer', answer: 'row' }]).current).toBe('row.trend@rear');
    expect(play([{ type: 'answer', answer: 'one' }]).current).toBeNull();
  });
  it('saves after every answer, then asks on', () => {
    const [, effects] = step(model, bench, start, { type: 'answer', answer: 'row' });
    expect(effects).toEqual([{ do: 'save' }, { do: 'ask', question: 'row.trend@rear' }]);
  });
  it('explains without moving on', () => {
    const [state, effects] = step(model, bench, start, { type: 'why' });
    expect(state).toBe(start);
    expect(effects).toEqual([
      { do: 'explain', question: 'pattern' },
      { do: 'ask', question: 'pattern' },
    ]);
  });
  it('ignores an answer that the question does not have', () => {
    expect(play([{ type: 'answer', answer: 'nonsense' }])).toEqual(start);
  });
  it('takes an answer without its end, and asks neither end again', () => {
    const row = play([{ type: 'answer', answer: 'row' }]);
    const state = play([{ type: 'answer', answer: 'worse', end: 'either' }], row);
    expect(state.steps.map((s) => [s.question, s.answer])).toEqual([
      ['pattern', 'row'],
      ['row.trend@either', 'worse'],
      ['row.trend@front', 'cannot-tell'],
      ['row.trend@rear', 'cannot-tell'],
    ]);
    const { causes } = look(model, bench, state).belief;
    expect(causes[0]).toBeGreaterThan(look(model, bench, row).belief.causes[0]!);
    expect(causes[model.causeIndex.get('rear.rebound.low.too-slow')!]).toBeGreaterThan(
      look(model, bench, row).belief.causes[model.causeIndex.get('rear.rebound.low.too-slow')!]!,
    );
    // Taken back as the one answer it was.
    expect(play([{ type: 'back' }], state)).toEqual(row);
  });
  it('does not take a question that has no end without its end', () => {
    expect(play([{ type: 'answer', answer: 'row', end: 'either' }])).toEqual(start);
  });
  it('puts a question off without counting it', () => {
    const state = play([{ type: 'not-now' }]);
    expect(state.steps).toEqual([{ question: 'pattern', answer: NOT_NOW, sure: 'sure' }]);
    expect(hear(model, toCase(state).answers, bench.fact).evidence).toEqual([]);
    expect(look(model, bench, state).belief.causes).toEqual(look(model, bench, start).belief.causes);
  });
  it('reports when told to finish', () => {
    const [state, effects] = step(model, bench, start, { type: 'finish' });
    expect(state.ended).toBe('finished');
    expect(effects).toEqual([{ do: 'save' }, { do: 'report', because: 'finished' }]);
  });
  it('gives the same state when its saved case is begun again', () => {
    const state = play([{ type: 'answer', answer: 'row', sure: 'fairly' }, { type: 'cannot-tell' }]);
    const { value } = readCase(JSON.parse(JSON.stringify(toCaseFile(state))), vocabularyOf(rules), 'x');
    const [again] = begin(model, bench, value!);
    expect(again.steps).toEqual(state.steps);
    expect(again.current).toBe(state.current);
  });
});

type Move = { kind: 'answer' | 'cannot-tell' | 'not-now' | 'back' | 'change'; pick: number; steps: number };
const moves = fc.array(
  fc.record({
    kind: fc.constantFrom<Move['kind']>(
      'answer',
      'answer',
      'answer',
      'cannot-tell',
      'not-now',
      'back',
      'change',
    ),
    pick: fc.nat(9),
    steps: fc.integer({ min: 1, max: 4 }),
  }),
  { maxLength: 25 },
);

describe('the interview against a plain list', () => {
  it('holds exactly the answers that a list would, whatever is answered, taken back and changed', () => {
    fc.assert(
      fc.property(moves, (list) => {
        let state = start;
        let plain: Step[] = [];
        for (const move of list) {
          const { current } = state;
          switch (move.kind) {
            case 'answer': {
              const answer = answerOf(state, move.pick);
              state = play([{ type: 'answer', answer }], state);
              if (current !== null) plain = [...plain, { question: current, answer, sure: 'sure' }];
              break;
            }
            case 'cannot-tell':
            case 'not-now':
              state = play([{ type: move.kind }], state);
              if (current !== null)
                plain = [...plain, { question: current, answer: move.kind, sure: 'sure' }];
              break;
            case 'back':
              state = play([{ type: 'back', steps: move.steps }], state);
              plain = plain.slice(0, Math.max(0, plain.length - move.steps));
              break;
            case 'change': {
              if (plain.length === 0) break;
              const at = plain[move.pick % plain.length]!;
              const q = model.rules.questions[model.questionIndex.get(at.question)!]!;
              const answer = q.answers[move.pick % q.answers.length]!.id;
              state = play([{ type: 'change', question: at.question, answer }], state);
              plain = plain.map((s) => (s.question === at.question ? { ...s, answer } : s));
              break;
            }
          }
          expect(state.steps).toEqual(plain);
        }
        // The same list replayed from a saved state asks the same question.
        expect(play([], begin(model, bench, { id: 'x', answers: [] })[0])).toEqual(start);
        expect(JSON.parse(JSON.stringify(state))).toEqual(state);
      }),
      { numRuns: 150 },
    );
  });

  it('goes back to exactly the state before', () => {
    fc.assert(
      fc.property(fc.array(fc.nat(9), { minLength: 1, maxLength: 6 }), (picks) => {
        const states = [start];
        for (const pick of picks)
          states.push(play([{ type: 'answer', answer: answerOf(states.at(-1)!, pick) }], states.at(-1)!));
        for (let i = states.length - 1; i > 0; i--) {
          // An answer given when nothing was asked changed nothing, so there is nothing to take back.
          const taken = states[i]!.steps.length > states[i - 1]!.steps.length;
          expect(taken ? play([{ type: 'back' }], states[i]!) : states[i]).toEqual(states[i - 1]);
        }
      }),
    );
  });
});

it('goes back from two dangers as far as a question, and takes none of them back behind the same screen', () => {
  const answers = answersOf({ complaint: 'rows', 'brake-feel': 'spongy', 'safety.brakes': 'spongy' });
  const [fresh] = begin(baseModel(), bareBike(), { id: 'x' });
  const [found] = step(baseModel(), bareBike(), fresh, { type: 'confirm', answers });
  expect(found.ended).toBe('danger');
  const [back] = step(baseModel(), bareBike(), found, { type: 'back' });
  expect(back.ended).toBeNull();
  // Both are asked about again, so that no danger is lost.
  expect(back.current).toBe('safety.found');
  expect(back.steps.map(({ question }) => question)).toEqual(['complaint']);
});

describe('a rider who cannot tell', () => {
  const base = baseModel();
  const bare = bareBike();
  const sound = Object.fromEntries(
    base.rules.questions.filter((q) => q.safety).map((q) => [q.id, q.answers[q.default]!.id]),
  );
  const [safe] = begin(base, bare, { id: 'x', answers: answersOf({ ...sound, complaint: 'corners' }) });
  const unsure = (from: Interview, count: number): Interview =>
    Array.from({ length: count }).reduce<Interview>(
      (at) => step(base, bare, at, { type: 'cannot-tell' })[0],
      from,
    );

  it('is sent to find out after four questions in a row, and asked on if he likes', () => {
    expect(unsure(safe, 3).ended).toBeNull();
    const stuck = unsure(safe, 4);
    expect(stuck).toMatchObject({ ended: 'stuck', current: null });
    expect(toCase(stuck).interview?.finished).toBe(true);
    const [on] = step(base, bare, stuck, { type: 'keep-asking' });
    expect(on.ended).toBeNull();
    expect(unsure(on, 1).ended).toBeNull();
  });
  it('is asked on for so many questions at most, then told again, and asked on again if he likes', () => {
    const { numbers } = base.rules;
    const most = numbers.asking['at-most-more'];
    const usual = (at: Interview): Interview => {
      const { answers, default: right } = base.rules.questions[base.questionIndex.get(at.current!)!]!;
      return step(base, bare, at, { type: 'answer', answer: answers[right]!.id })[0];
    };
    let [at] = step(base, bare, unsure(safe, 4), { type: 'keep-asking' });
    for (let n = 1; n <= most; n++) {
      expect(askedOn(at, numbers)).toEqual({ at: n, most });
      expect(at.ended).toBeNull();
      at = usual(at);
    }
    expect(at).toMatchObject({ ended: 'full', current: null });
    expect(toCase(at).interview).toMatchObject({ keepAsking: true, finished: true });
    // Taken back from there, the last question stands there again.
    expect(askedOn(step(base, bare, at, { type: 'back' })[0], numbers)).toEqual({ at: most, most });
    expect(askedOn(step(base, bare, at, { type: 'keep-asking' })[0], numbers)).toEqual({ at: 1, most });
    // What was kept goes on for as many.
    expect(begin(base, bare, toCase(at))[0].onFrom).toBe(answersGiven(at.steps).length);
  });
  it('is not stuck with an answer in between, nor before the safety questions', () => {
    const [between] = step(base, bare, unsure(safe, 3), {
      type: 'answer',
      answer: base.rules.questions[base.questionIndex.get(unsure(safe, 3).current!)!]!.answers[0]!.id,
    });
    expect(unsure(between, 3).ended).not.toBe('stuck');
    let [fresh] = begin(base, bare, { id: 'x', answers: answersOf({ complaint: 'corners' }) });
    const safety = (): boolean => base.rules.questions.find(({ id }) => id === fresh.current)!.safety;
    expect(safety()).toBe(true);
    while (safety()) fresh = unsure(fresh, 1);
    expect(fresh.ended).toBeNull();
  });
  it('is not stuck after two questions behind an answer without its end', () => {
    let at = safe;
    while (!canBeEither(base, at.current!)) {
      const { answers, default: right } = base.rules.questions[base.questionIndex.get(at.current!)!]!;
      [at] = step(base, bare, at, { type: 'answer', answer: answers[right]!.id });
    }
    const { answers, default: right } = base.rules.questions[base.questionIndex.get(at.current!)!]!;
    [at] = step(base, bare, at, { type: 'answer', answer: answers[right]!.id, end: 'either' });
    expect(unsure(at, 2).ended).not.toBe('stuck');
  });
  it('is asked the very questions that were left open when he comes back, each once', () => {
    const stuck = unsure(safe, 4);
    const left = stuck.steps.slice(-4).map((s) => s.question);
    let [back] = begin(base, bare, toCase(stuck));
    const asked: string[] = [];
    while (back.reopened !== undefined) {
      asked.push(back.current!);
      const { answers, default: right } = base.rules.questions[base.questionIndex.get(back.current!)!]!;
      [back] = step(base, bare, back, { type: 'answer', answer: answers[right]!.id });
    }
    expect(asked).toEqual(left);
    expect(back.steps).toHaveLength(stuck.steps.length);
    expect(back.steps.some((s) => s.answer === CANNOT_TELL)).toBe(false);
    expect(left).not.toContain(back.current);
  });
  it('goes on where he was when it was only interrupted', () => {
    const [again] = begin(base, bare, toCase(unsure(safe, 2)));
    expect(again.reopened).toBeUndefined();
    expect(again.current).toBe(unsure(safe, 2).current);
  });
});

describe('what was said in own words and confirmed', () => {
  const base = baseModel();
  const bare = bareBike();
  const askedAfter = (said: boolean): string[] => {
    let [state] = begin(base, bare, {
      id: 'x',
      answers: answersOf({ 'lone-hit.kick@rear': 'kicks' }),
      ...(said ? { said: 'the rear kicks on single bumps' } : {}),
    });
    const asked: string[] = [];
    while (state.current !== null && asked.length < 25) {
      asked.push(state.current);
      const { answers, default: right } = base.rules.questions[base.questionIndex.get(state.current)!]!;
      [state] = step(base, bare, state, { type: 'answer', answer: answers[right]!.id });
    }
    return asked;
  };
  it('is not asked again: what bothers most, which end, on which kind of hit', () => {
    const implied = ['complaint', 'trouble-end', 'hit-pattern'];
    expect(askedAfter(true).filter((id) => implied.includes(id))).toEqual([]);
    expect(askedAfter(false).filter((id) => implied.includes(id))).not.toEqual([]);
  });

  it('tells which end it is, also where both were told of', () => {
    const [state] = begin(base, bare, {
      id: 'x',
      said: 'the rear kicks on single bumps and the fork is harsh',
      answers: answersOf({ 'lone-hit.kick@rear': 'kicks', 'square-edge@front': 'spike' }),
    });
    const open = look(base, bare, state).open.map(({ question }) => base.rules.questions[question]!.id);
    expect(open).not.toContain('trouble-end');
    const { said: _, ...unsaid } = state;
    const asked = look(base, bare, unsaid).open.map(({ question }) => base.rules.questions[question]!.id);
    expect(asked).toContain('trouble-end');
  });

  it('is not named as what to ask next in a report on the saved answers either', () => {
    const { questions } = base.rules;
    const answers = answersOf({
      'landing@either': 'hits',
      ...Object.fromEntries(questions.filter((q) => q.safety).map((q) => [q.id, q.answers[q.default]!.id])),
    });
    const openAfter = (said?: string): string[] => {
      const [state] = begin(base, bare, { id: 'x', answers, ...(said === undefined ? {} : { said }) });
      return look(base, bare, state).open.map(({ question }) => questions[question]!.id);
    };
    expect(openAfter()).toContain('complaint');
    expect(openAfter('it hits the end of its travel on landings')).not.toContain('complaint');
  });
});

function answersOf(answers: Readonly<Record<string, string>>): Step[] {
  return Object.entries(answers).map(([question, answer]) => ({ question, answer, sure: 'sure' as const }));
}
