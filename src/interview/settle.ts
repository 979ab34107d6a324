/** What an interview asks now, or that its asking is over. */
import type { PreparedBike } from '../advice/prepared-bike.ts';
import { consult, type Consultation } from '../casework/consult.ts';
import type { Model } from '../diagnosis/model.ts';
import { leftOpen } from './answers.ts';
import type { Effect, Transition } from './events.ts';
import { nextQuestion } from './next-question.ts';
import { answersGiven, askedOn, toCase, type Interview } from './state.ts';

/** Works out what is asked now, or that the asking is over. */
export function settle(model: Model, bench: PreparedBike, state: Interview, save: boolean): Transition {
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

export function ask(state: Interview): Effect[] {
  return state.current === null ? [] : [{ do: 'ask', question: state.current }];
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
