/**
 * Where an interview stands, and the case that makes. The state is plain JSON, so saving, resuming, going back and
 * replaying are all the same thing.
 */
import type { StopReason } from '../advice/stop.ts';
import { printDeed } from '../bike/deed.ts';
import { writeBand, writeLength, writeNumber } from '../bike/gauge/read-number.ts';
import { writeSpringAt } from '../bike/gauge/spring-at.ts';
import {
  CASE_FORMAT,
  type Case,
  type CaseAnswer,
  type CaseResult,
  type InterviewNotes,
  type Measured,
  type Round,
  type Tried,
} from '../casework/case.ts';
import { atEither, CANNOT_TELL, type CompiledRules } from '../rulebase/compiled.ts';

/** One question dealt with: answered, not known, or put off to a ride or the stand. */
export type Step = CaseAnswer;

/** stuck: several questions in a row that the rider could not answer; finished: the user ended it. */
export type Ended = StopReason | 'stuck' | 'finished';

export interface Interview {
  readonly id: string;
  readonly steps: readonly Step[];
  /** topics of what bothers the rider most: they are asked about first */
  readonly topics: readonly string[];
  readonly said?: string;
  /** what these words could mean and do not, as in `InterviewNotes` */
  readonly notMeant?: InterviewNotes['notMeant'];
  /** not all that was said was gone through yet */
  readonly hearing?: true;
  readonly bike?: Case['bike'];
  /** what was said of a bike without a sheet */
  readonly has?: Case['has'];
  /** something was changed for good, in no trial, since the round before */
  readonly changed?: true;
  /** what was tried before the interview */
  readonly tried?: readonly Tried[];
  /** trials ridden after these answers, and whole rounds before them: carried through, never asked */
  readonly results: readonly CaseResult[];
  readonly earlier: readonly Round[];
  readonly note?: unknown;
  /** the question being asked; null when there is none */
  readonly current: string | null;
  /** why the asking stopped; null while it goes on */
  readonly ended: Ended | null;
  /** taken up again after it was over: questions left open then, to be asked first */
  readonly reopened?: readonly string[];
  readonly keepAsking: boolean;
  /** how many answers there were when asking on began; it goes on for a few, and then asks whether to go on */
  readonly onFrom?: number;
  /** it is held in plain words; kept, so that it goes on in them */
  readonly for?: 'rider';
  /** when it was begun, ISO 8601 */
  readonly begun?: string;
}

/** Whether "can't tell" stands at an end only because the question was answered without its end. */
export function answeredWithoutEnd(steps: readonly Step[], { question, answer }: Step): boolean {
  const either = atEither(question);
  return answer === CANNOT_TELL && either !== question && steps.some((s) => s.question === either);
}

/** What the rider answered, one for each question asked: without the ends that an answer left open. */
export function answersGiven(steps: readonly Step[]): readonly Step[] {
  return steps.filter((s) => !answeredWithoutEnd(steps, s));
}

/**
 * Where asking on past enough stands: which of how many at most is asked now. Undefined before that, and where answers
 * were taken back to before it.
 */
export function askedOn(
  { keepAsking, onFrom, steps }: Interview,
  { asking }: CompiledRules['numbers'],
): { readonly at: number; readonly most: number } | undefined {
  if (!keepAsking || onFrom === undefined) return undefined;
  const at = answersGiven(steps).length - onFrom + 1;
  return at < 1 ? undefined : { at, most: asking['at-most-more'] };
}

/**
 * What was answered holds of the bike as a kept step left it, too: the round that ends with it, and these answers after it.
 * @param isPast whether a question looks at what the step moved: its answer was true before
 */
export function toldAgain(state: Interview, isPast: (question: string) => boolean): Interview {
  const { tried, changed, steps: answers, results, earlier, ...rest } = state;
  const round: Round = {
    ...(changed === undefined ? {} : { changed }),
    ...(tried === undefined ? {} : { tried }),
    answers,
    results,
  };
  const steps = answers.filter(({ question }) => !isPast(question));
  return { ...rest, steps, results: [], earlier: [...earlier, round] };
}

/** The case these answers make. */
export function toCase(state: Interview): Case {
  const { topics, keepAsking } = state;
  // Asked on as far as was agreed: whoever leaves it there has ended it.
  const asOffered = state.ended === 'full' && keepAsking;
  const finished = state.ended === 'finished' || state.ended === 'stuck' || asOffered;
  return {
    id: state.id,
    ...(state.bike === undefined ? {} : { bike: state.bike }),
    ...(state.has === undefined ? {} : { has: state.has }),
    ...(state.said === undefined ? {} : { said: state.said }),
    ...(state.changed === undefined ? {} : { changed: state.changed }),
    // An empty list says that it was asked, and nothing was.
    ...(state.tried === undefined ? {} : { tried: state.tried }),
    answers: state.steps,
    results: state.results,
    earlier: state.earlier,
    ...(topics.length === 0 &&
    !keepAsking &&
    !finished &&
    state.notMeant === undefined &&
    state.hearing === undefined &&
    state.for === undefined &&
    state.begun === undefined
      ? {}
      : {
          interview: {
            about: topics,
            ...(state.notMeant === undefined ? {} : { notMeant: state.notMeant }),
            ...(state.hearing === undefined ? {} : { hearing: state.hearing }),
            keepAsking,
            ...(finished ? { finished } : {}),
            ...(state.for === undefined ? {} : { for: state.for }),
            ...(state.begun === undefined ? {} : { begun: state.begun }),
          },
        }),
    ...(state.note === undefined ? {} : { note: state.note }),
  };
}

/** A number that was measured, and what it was held against, as a case file has it. */
function numberFile({ value, unit, band, length, at }: Measured, sure: Step['sure']): Record<string, string> {
  return {
    measured: length === undefined ? writeNumber(value, unit) : writeLength(value, length),
    target: writeBand(band, unit),
    ...(at === undefined ? {} : { at: writeSpringAt(at) }),
    ...(sure === 'sure' ? {} : { sure }),
  };
}

/** The case as it is written to a file. */
export function toCaseFile(state: Interview): Record<string, unknown> {
  const kase = toCase(state);
  const round = (r: Round): Record<string, unknown> => ({
    ...(r.changed === undefined ? {} : { changed: r.changed }),
    ...(r.tried === undefined
      ? {}
      : {
          tried: r.tried.map(({ change, putBack, ...rest }) => ({
            ...(change === undefined ? {} : { change: printDeed(change) }),
            ...rest,
            'put-back': putBack,
          })),
        }),
    answers: Object.fromEntries(
      r.answers.map((a) => {
        const answer = a.also === undefined ? a.answer : [a.answer, ...a.also];
        if (a.measured !== undefined) return [a.question, numberFile(a.measured, a.sure)];
        return [a.question, a.sure === 'sure' ? answer : { answer, sure: a.sure }];
      }),
    ),
    ...(r.results.length === 0
      ? {}
      : {
          results: r.results.map(({ changedAfter, ...one }) => ({
            ...one,
            change: printDeed(one.change),
            ...(changedAfter === undefined ? {} : { 'changed-after': changedAfter }),
          })),
        }),
  });
  const notes = kase.interview;
  return {
    case: CASE_FORMAT,
    id: kase.id,
    ...(kase.bike === undefined ? {} : { bike: kase.bike }),
    // Where there is a sheet, the sheet says it.
    ...(kase.has === undefined || kase.bike !== undefined ? {} : { has: kase.has.raw }),
    ...(kase.said === undefined ? {} : { said: kase.said }),
    ...(kase.earlier.length === 0 ? {} : { earlier: kase.earlier.map(round) }),
    ...round(kase),
    ...(notes === undefined
      ? {}
      : {
          interview: {
            ...(notes.about.length === 0 ? {} : { about: notes.about }),
            ...(notes.notMeant === undefined ? {} : { 'not-meant': notes.notMeant }),
            ...(notes.hearing === undefined ? {} : { hearing: notes.hearing }),
            ...(notes.keepAsking ? { 'keep-asking': true } : {}),
            ...(notes.finished === true ? { finished: true } : {}),
            ...(notes.for === undefined ? {} : { for: notes.for }),
            ...(notes.begun === undefined ? {} : { begun: notes.begun }),
          },
        }),
    ...(kase.note === undefined ? {} : { note: kase.note }),
  };
}
