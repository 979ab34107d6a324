/** The interview as a pure reducer: (model, bench, state, event) → [state, effects]. */
import type { PreparedBike } from '../advice/prepared-bike.ts';
import type { Case, CaseResult, Measured, Sure } from '../casework/case.ts';
import { allOf } from '../casework/several.ts';
import type { Model } from '../diagnosis/model.ts';
import { CANNOT_TELL, NOT_NOW } from '../rulebase/compiled.ts';
import { back, canBeEither, isAnswer, leftOpen, stepOf, withoutEnd } from './answers.ts';
import type { Event, Transition } from './events.ts';
import { takenUp } from './next-question.ts';
import { ask, look, settle } from './settle.ts';
import { answersGiven, toldAgain, type Interview, type Step } from './state.ts';

/** Whether all that a question tells of is a setting that the step moved for good, such as where a lever stands. */
export function looksAt(
  { rules, questionIndex }: Model,
  { change, kept }: Pick<CaseResult, 'change' | 'kept'>,
): (question: string) => boolean {
  const moved = new Set(kept && 'changes' in change ? change.changes.map(({ setting }) => setting) : []);
  return (id) => {
    const { links } = rules.questions[questionIndex.get(id)!]!;
    return (
      links.length > 0 &&
      links.every(([cause]) => moved.has(rules.settings[rules.causes[cause]!.setting]!.id))
    );
  };
}

/**
 * A new interview, or one begun from a saved case. One that was over is taken up where it was left open: what the rider
 * could not tell, or put off, is asked now.
 */
export function begin(
  model: Model,
  bench: PreparedBike,
  from: Partial<Case> & { readonly id: string },
): Transition {
  const start: Interview = {
    id: from.id,
    steps: [...(from.answers ?? [])],
    topics: from.interview?.about ?? [],
    ...(from.said === undefined ? {} : { said: from.said }),
    ...(from.interview?.notMeant === undefined ? {} : { notMeant: from.interview.notMeant }),
    ...(from.interview?.hearing === undefined ? {} : { hearing: from.interview.hearing }),
    ...(from.bike === undefined ? {} : { bike: from.bike }),
    ...(from.has === undefined ? {} : { has: from.has }),
    ...(from.changed === undefined ? {} : { changed: from.changed }),
    ...(from.tried === undefined ? {} : { tried: from.tried }),
    results: from.results ?? [],
    earlier: from.earlier ?? [],
    ...(from.note === undefined ? {} : { note: from.note }),
    current: null,
    ended: null,
    keepAsking: from.interview?.keepAsking ?? false,
    ...(from.interview?.keepAsking === true ? { onFrom: answersGiven(from.answers ?? []).length } : {}),
    ...(from.interview?.for === undefined ? {} : { for: from.interview.for }),
    ...(from.interview?.begun === undefined ? {} : { begun: from.interview.begun }),
  };
  const begun = settle(model, bench, start, false);
  const over = from.interview?.finished === true || (begun[0].ended !== null && begun[0].ended !== 'danger');
  const open = over ? leftOpen(start.steps) : [];
  if (open.length === 0) return begun;
  const reopened = takenUp(model, begun[0], look(model, bench, begun[0]), open);
  return settle(model, bench, { ...start, reopened }, false);
}

/** One event. An event that makes no sense now (an answer when nothing is asked, an unknown id) changes nothing. */
export function step(model: Model, bench: PreparedBike, state: Interview, event: Event): Transition {
  switch (event.type) {
    case 'open': {
      // It takes the place of what was said before.
      const { said: _, notMeant: __, hearing: ___, ...rest } = state;
      const { topics, said, notMeant, hearing } = event;
      return settle(
        model,
        bench,
        {
          ...rest,
          topics,
          ...(said === undefined ? {} : { said }),
          ...(notMeant === undefined ? {} : { notMeant }),
          ...(hearing === undefined ? {} : { hearing }),
        },
        true,
      );
    }
    case 'confirm': {
      // Two readings of one sentence may answer the same question; the later one stands, or both where it takes several.
      const given = new Map<string, Step>();
      for (const { question, answer, also = [], sure, measured } of event.answers) {
        if (![answer, ...also].every((one) => isAnswer(model, question, one))) continue;
        const before = given.get(question);
        const all = [...(before === undefined ? [] : allOf(before)), answer, ...also];
        given.set(
          question,
          stepOf(model, question, all, { sure, measured: before === undefined ? measured : undefined }),
        );
      }
      const steps = [...state.steps.filter((s) => !given.has(s.question)), ...given.values()];
      return settle(model, bench, { ...state, steps, ended: null }, true);
    }
    case 'tried':
      return settle(model, bench, { ...state, tried: event.tried, ended: null }, true);
    case 'rode': {
      const ridden = { ...state, results: [...state.results, event.result], ended: null };
      const { result, left } = event;
      return settle(model, bench, left ? toldAgain(ridden, looksAt(model, result)) : ridden, true);
    }
    case 'has':
      return settle(model, bench, { ...state, has: event.has, ended: null }, true);
    case 'answer':
      return record(model, bench, state, event.answer, event.sure ?? 'sure', {
        either: event.end === 'either',
        also: event.also ?? [],
        measured: event.measured,
      });
    case 'cannot-tell':
      return record(model, bench, state, CANNOT_TELL, 'sure');
    case 'not-now':
      return record(model, bench, state, NOT_NOW, 'sure');
    case 'back': {
      let steps = back(state.steps, Math.max(1, event.steps ?? 1));
      if (steps.length === state.steps.length) return [state, ask(state)];
      const settled = (): Transition => settle(model, bench, { ...state, steps, ended: null }, true);
      let there = settled();
      // From a danger it goes back as far as a question: no answer is taken back behind a screen that stays the same.
      while (there[0].ended === 'danger' && steps.length > 0) {
        steps = back(steps, 1);
        there = settled();
      }
      return there;
    }
    case 'change': {
      const { question, answer, also = [], sure = 'sure', measured } = event;
      if (
        ![answer, ...also].every((one) => isAnswer(model, question, one)) ||
        !state.steps.some((s) => s.question === event.question)
      )
        return [state, ask(state)];
      const steps = state.steps.map((s) =>
        s.question === question ? stepOf(model, question, [...also, answer], { sure, measured }) : s,
      );
      return settle(model, bench, { ...state, steps, ended: null }, true);
    }
    case 'why':
      return [
        state,
        state.current === null ? [] : [{ do: 'explain', question: state.current }, ...ask(state)],
      ];
    case 'keep-asking':
      return state.ended === 'danger'
        ? [state, []]
        : settle(
            model,
            bench,
            { ...state, keepAsking: true, onFrom: answersGiven(state.steps).length, ended: null },
            true,
          );
    case 'ask':
      return model.questionIndex.has(event.question) && state.ended !== 'danger'
        ? settle(model, bench, { ...state, reopened: askedFirst(event.question, state), ended: null }, false)
        : [state, ask(state)];
    case 'finish':
      return [
        { ...state, current: null, ended: 'finished' },
        [{ do: 'save' }, { do: 'report', because: 'finished' }],
      ];
  }
}

/** What was taken up again stays open behind it. */
function askedFirst(question: string, { reopened = [] }: Interview): readonly string[] {
  return [question, ...reopened.filter((id) => id !== question)];
}

function record(
  model: Model,
  bench: PreparedBike,
  state: Interview,
  answer: string,
  sure: Sure,
  {
    either = false,
    also = [],
    measured,
  }: {
    readonly either?: boolean;
    readonly also?: readonly string[];
    readonly measured?: Measured | undefined;
  } = {},
): Transition {
  const possible =
    state.current !== null &&
    (answer === NOT_NOW
      ? // A safety question may be unknown, which puts it on the rider's list, but not put off in silence.
        !model.rules.questions[model.questionIndex.get(state.current)!]!.safety
      : [answer, ...also].every((one) => isAnswer(model, state.current!, one)));
  if (!possible || (either && !canBeEither(model, state.current!))) return [state, ask(state)];
  const question = state.current!;
  const step = stepOf(model, question, [...also, answer], { sure, measured });
  // A question taken up again is not asked twice.
  const { reopened = [], ...rest } = state;
  const before = state.steps.filter((s) => !reopened.includes(s.question) || s.question !== step.question);
  const steps = either ? withoutEnd(model, { ...state, steps: before }, step) : [...before, step];
  const still = reopened.filter((id) => id !== step.question);
  return settle(model, bench, { ...rest, steps, ...(still.length === 0 ? {} : { reopened: still }) }, true);
}
