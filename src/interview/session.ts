/** The interview as a pure reducer: (model, bench, state, event) → [state, effects]. */
import type { PreparedBike } from '../advice/prepared-bike.ts';
import type { Case, CaseAnswer, CaseResult, Measured, Sure, Tried } from '../casework/case.ts';
import { allOf, together } from '../casework/several.ts';
import { consult, type Consultation } from '../casework/consult.ts';
import type { Model } from '../diagnosis/model.ts';
import { atEither, CANNOT_TELL, NOT_NOW, type Question } from '../rulebase/compiled.ts';
import { nextQuestion, takenUp } from './next-question.ts';
import {
  answeredWithoutEnd,
  answersGiven,
  askedOn,
  toCase,
  toldAgain,
  type Ended,
  type Interview,
  type Step,
} from './state.ts';

export type Event =
  | {
      readonly type: 'open';
      readonly topics: readonly string[];
      readonly said?: string;
      readonly notMeant?: Interview['notMeant'];
      /** not all that was said was gone through yet */
      readonly hearing?: true;
    }
  | { readonly type: 'confirm'; readonly answers: readonly CaseAnswer[] }
  | {
      readonly type: 'answer';
      readonly answer: string;
      /** further answers, where the question takes several */
      readonly also?: readonly string[];
      readonly sure?: Sure;
      /** the number that the answer was made of */
      readonly measured?: Measured;
      /** the rider cannot tell the end: it counts for either, and neither is asked again */
      readonly end?: 'either';
    }
  /** what was tried before, all of it: it takes the place of what was told before */
  | { readonly type: 'tried'; readonly tried: readonly Tried[] }
  /** the step that was advised was ridden; `left`: it is better and stays, and what bothered is not gone */
  | { readonly type: 'rode'; readonly result: CaseResult; readonly left: boolean }
  /** what a bike without a sheet has; comes with the bench of such a bike */
  | { readonly type: 'has'; readonly has: NonNullable<Case['has']> }
  | { readonly type: 'cannot-tell' }
  | { readonly type: 'not-now' }
  | { readonly type: 'back'; readonly steps?: number }
  | {
      readonly type: 'change';
      readonly question: string;
      readonly answer: string;
      readonly also?: readonly string[];
      readonly sure?: Sure;
      readonly measured?: Measured;
    }
  | { readonly type: 'why' }
  | { readonly type: 'keep-asking' }
  /** a question although enough was asked, before what was taken up again: what is left open of a complaint, or was named as a check */
  | { readonly type: 'ask'; readonly question: string }
  | { readonly type: 'finish' };

/** What the shell must do; the reducer itself does none of it. */
export type Effect =
  | { readonly do: 'ask'; readonly question: string }
  | { readonly do: 'save' }
  | { readonly do: 'explain'; readonly question: string }
  | { readonly do: 'report'; readonly because: Ended };

export type Transition = readonly [Interview, readonly Effect[]];

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

/** Questions that were asked and not answered; one that was answered without its end is. */
export function leftOpen(steps: readonly Step[]): string[] {
  return answersGiven(steps)
    .filter((s) => s.answer === CANNOT_TELL || s.answer === NOT_NOW)
    .map((s) => s.question);
}

/**
 * Whether the rider could answer none of the last questions, or all but one where there is a change to try already: asking
 * on would only be the same again.
 */
function stuck({ steps, keepAsking }: Interview, advised: boolean): boolean {
  const last = advised ? MOST_UNKNOWN + 1 : MOST_UNKNOWN;
  const given = answersGiven(steps);
  if (keepAsking || given.length < last) return false;
  return leftOpen(given.slice(-last)).length >= MOST_UNKNOWN;
}

/** Questions in a row without an answer, after which the rider is sent to find out instead. */
const MOST_UNKNOWN = 4;

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

/** Steps taken back one by one; an answer without its end goes with the two ends it left open. */
function back(steps: readonly Step[], count: number): readonly Step[] {
  const left = [...steps];
  for (let i = 0; i < count && left.length > 0; i++) {
    while (answeredWithoutEnd(left, left.at(-1)!)) left.pop();
    left.pop();
  }
  return left;
}

/** Whether the question that is asked can be answered without its end. */
export function canBeEither(model: Model, question: string): boolean {
  return atEither(question) !== question && model.questionIndex.has(atEither(question));
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

/** An answer as it is kept, with the number where it was made of one. */
function stepOf(
  model: Model,
  question: string,
  answers: readonly string[],
  { sure, measured }: { readonly sure: Sure; readonly measured: Measured | undefined },
): Step {
  return {
    question,
    ...together(questionOf(model, question), answers),
    sure,
    ...(measured === undefined ? {} : { measured }),
  };
}

/** The answer at an end unknown, and "can't tell" at the ends that were not answered before. */
function withoutEnd(model: Model, { steps }: Interview, step: Step): readonly Step[] {
  const id = atEither(step.question);
  const { questions } = model.rules;
  const ends = questions[model.questionIndex.get(id)!]!.either!.map((i) => questions[i]!.id);
  const open = ends.filter((end) => !steps.some((s) => s.question === end));
  return [
    ...steps.filter((s) => s.question !== id),
    { ...step, question: id },
    ...open.map((question) => ({ question, answer: CANNOT_TELL, sure: 'sure' as const })),
  ];
}

function questionOf(model: Model, id: string): Question {
  return model.rules.questions[model.questionIndex.get(id)!]!;
}

function isAnswer(model: Model, question: string, answer: string): boolean {
  const index = model.questionIndex.get(question);
  return (
    index !== undefined &&
    (answer === CANNOT_TELL || model.rules.questions[index]!.answers.some((a) => a.id === answer))
  );
}

function ask(state: Interview): Effect[] {
  return state.current === null ? [] : [{ do: 'ask', question: state.current }];
}

/** Works out what is asked now, or that the asking is over. */
function settle(model: Model, bench: PreparedBike, state: Interview, save: boolean): Transition {
  const c = look(model, bench, state);
  const saving: Effect[] = save ? [{ do: 'save' }] : [];
  const again = c.stop === 'danger' ? undefined : state.reopened?.[0];
  if (again !== undefined) {
    const asked: Interview = { ...state, current: again, ended: null };
    return [asked, [...saving, ...ask(asked)]];
  }
  if (stuck(state, c.advice.verdict === 'change') && c.stop !== 'danger' && !safetyOpen(model, c))
    return [{ ...state, current: null, ended: 'stuck' }, [...saving, { do: 'report', because: 'stuck' }]];
  if (c.stop !== undefined) {
    return [{ ...state, current: null, ended: c.stop }, [...saving, { do: 'report', because: c.stop }]];
  }
  const { at = 0, most = 0 } = askedOn(state, model.rules.numbers) ?? {};
  if (at > most && !safetyOpen(model, c))
    return [{ ...state, current: null, ended: 'full' }, [...saving, { do: 'report', because: 'full' }]];
  const next = nextQuestion(model, state, c);
  if (next === undefined)
    return [{ ...state, current: null, ended: 'dry' }, [...saving, { do: 'report', because: 'dry' }]];
  const asked: Interview = { ...state, current: next, ended: null };
  return [asked, [...saving, ...ask(asked)]];
}

function safetyOpen({ rules }: Model, { open }: Consultation): boolean {
  return open.some((g) => rules.questions[g.question]!.safety);
}

/** The belief of the moment, with the open questions ranked; put-off questions are not asked again. */
export function look(model: Model, bench: PreparedBike, state: Interview): Consultation {
  return consult(model, bench, toCase(state), {
    next: true,
    explain: 0,
    fit: false,
    lastTopic: lastTopic(model, state),
    keepAsking: state.keepAsking,
    skipPutOff: true,
  });
}

function lastTopic(model: Model, state: Interview): string | undefined {
  const last = state.steps.at(-1);
  return last === undefined
    ? undefined
    : model.rules.questions[model.questionIndex.get(last.question)!]!.topic;
}
