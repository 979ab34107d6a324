/** Answers of a case → evidence by index; those that do not apply are set aside with a reason. */
import { ENDS, type End } from '../bike/sheet.ts';
import type { Evidence } from '../diagnosis/belief.ts';
import { contradiction, dangersOf, type Danger, type Known } from '../diagnosis/gates.ts';
import type { Model } from '../diagnosis/model.ts';
import { CANNOT_TELL, NOT_NOW, type Question } from '../rulebase/compiled.ts';
import type { CaseAnswer } from './case.ts';
import { whichEnd, type WhichEnd } from './which-end.ts';
import { isAboutEnd } from '../rulebase/no-complaint.ts';

export interface Heard {
  readonly evidence: readonly Evidence[];
  /** answers that count, as gates see them */
  readonly known: Known;
  /** questions answered "can't tell", by index */
  readonly cannotTell: readonly number[];
  /** questions put off to a ride or the stand, by index */
  readonly putOff: readonly number[];
  /** answers to questions that did not apply, with the answer they contradict */
  readonly contradictions: readonly {
    readonly question: string;
    readonly against: string;
    readonly value: string;
  }[];
  /** every answer that stops all tuning, with its caution */
  readonly dangers: readonly Danger[];
  /** the cautions that go with an answer without stopping anything */
  readonly cautions: readonly string[];
}

export function hear(model: Model, answers: readonly CaseAnswer[], fact: Known['bike']): Heard {
  const { questions, numbers } = model.rules;
  const given = new Map<string, string>();
  for (const { question, answer } of answers) if (counts(answer)) given.set(question, answer);
  const also = new Map(answers.flatMap((a) => (a.also === undefined ? [] : [[a.question, a.also] as const])));
  for (const [id, value] of impliedBeside(model, answers, given))
    also.set(id, [...(also.get(id) ?? []), value]);
  const untold = answers.flatMap((a) => (a.answer === CANNOT_TELL ? [a.question] : []));
  const known: Known = {
    answers: given,
    ...(also.size === 0 ? {} : { also }),
    ...(untold.length === 0 ? {} : { cannotTell: new Set(untold) }),
    bike: fact,
  };
  const sound = soundOf(model, answers, known);
  const ends = whichEnds(model, given, also, known);
  const evidence: Evidence[] = [];
  const cannotTell: number[] = [];
  const putOff: number[] = [];
  const contradictions: Heard['contradictions'][number][] = [];
  const dangers: Danger[] = [];
  const cautions: string[] = [];
  for (const { question: id, answer, also: others = [], sure } of answers) {
    let index = model.questionIndex.get(id)!;
    const question = questions[index]!;
    if (!counts(answer)) {
      // "Can't tell the end, nor what": nothing was said, and the question of each end is still open.
      if (question.either === undefined) (answer === CANNOT_TELL ? cannotTell : putOff).push(index);
      continue;
    }
    const end = ends.get(id);
    // Of the end that is left it is that end's danger; of either, that of both.
    const asked = end?.is === 'at' ? [questions[end.question]!] : whole(questions, question);
    // What was also said of an end is that end's danger.
    if (end?.is !== 'told' || others.length > 0)
      for (const one of asked)
        for (const { answer: said, caution } of dangersOf(one, [answer, ...others], known, sound))
          if (!dangers.some((d) => d.question === id && d.answer === said && d.caution === caution))
            dangers.push({ question: id, answer: said, caution });
    if (end !== undefined) {
      if (end.is === 'told') continue;
      if (end.is === 'nowhere') {
        contradictions.push({ question: id, against: end.against, value: end.value });
        continue;
      }
      if (end.is === 'at') index = end.question;
    } else {
      const against = contradiction(question, known);
      if (against !== undefined) {
        // That nothing was noticed where nothing could be is no news.
        if (answer !== question.answers[question.default]!.id || others.length > 0)
          contradictions.push({ question: id, against: against.id, value: against.value });
        continue;
      }
    }
    const share = (1 + others.length * numbers['further-answer']) / (1 + others.length);
    for (const one of [answer, ...others]) {
      for (const { cautions: own } of asked) {
        const caution = own?.[one];
        if (caution !== undefined && !cautions.includes(caution)) cautions.push(caution);
      }
      evidence.push({
        question: index,
        answer: question.answers.findIndex((a) => a.id === one),
        sure: numbers.sure[sure],
        ...(others.length === 0 ? {} : { share }),
      });
    }
  }
  const implied = impliedBy(model, evidence);
  return {
    evidence,
    known: implied.size === 0 ? known : { ...known, implied },
    cannotTell,
    putOff,
    contradictions,
    cautions,
    dangers,
  };
}

/** What may take a danger back: a guess, or an answer to a question that did not apply, lets nobody ride. */
function soundOf(
  { rules: { questions }, questionIndex }: Model,
  answers: readonly CaseAnswer[],
  known: Known,
): Pick<Known, 'answers' | 'also'> {
  const isSound = ({ question, answer, sure }: CaseAnswer): boolean =>
    counts(answer) &&
    sure !== 'guess' &&
    contradiction(questions[questionIndex.get(question)!]!, known) === undefined;
  const sound = answers.filter(isSound);
  return {
    answers: new Map(sound.map(({ question, answer }) => [question, answer])),
    also: new Map(sound.map(({ question, also = [] }) => [question, also])),
  };
}

/** The question, and where it takes an answer of either end, those of both: their cautions may differ. */
function whole(questions: readonly Question[], question: Question): readonly Question[] {
  return question.either === undefined
    ? [question]
    : [question, ...question.either.map((index) => questions[index]!)];
}

/**
 * What a sign implies of a question that was answered otherwise: both hold. A crash told at the safety question is none the
 * less one because the rider names his new tyre when he is asked what changed.
 */
function impliedBeside(
  { rules: { questions }, questionIndex }: Model,
  answers: readonly CaseAnswer[],
  given: ReadonlyMap<string, string>,
): [string, string][] {
  return answers.flatMap(({ question: id, answer, also = [] }) => {
    const { implies, answers: all, default: usual } = questions[questionIndex.get(id)!]!;
    return [answer, ...also].flatMap((one) =>
      one === all[usual]!.id
        ? []
        : Object.entries(implies[one] ?? {}).filter(
            ([of, value]) => given.has(of) && given.get(of) !== value,
          ),
    );
  });
}

/** What goes without saying after the answers that count, and after that in turn. */
function impliedBy(model: Model, evidence: readonly Evidence[]): Map<string, string> {
  const { questions } = model.rules;
  const out = new Map<string, string>();
  const follow = (index: number, answer: string): void => {
    const implied = questions[index]!.implies[answer];
    if (implied === undefined) return;
    for (const [id, value] of Object.entries(implied)) {
      if (out.has(id)) continue;
      out.set(id, value);
      follow(model.questionIndex.get(id)!, value);
    }
  };
  for (const { question, answer } of evidence) follow(question, questions[question]!.answers[answer]!.id);
  return out;
}

/** For every answer whose end is not known, which end it may be of; one that is left is taken down as its answer. */
function whichEnds(
  model: Model,
  given: Map<string, string>,
  also: Map<string, readonly string[]>,
  known: Known,
): Map<string, WhichEnd> {
  const { questions } = model.rules;
  const out = new Map<string, WhichEnd>();
  const told = endTold(model, given);
  const indices: number[] = [];
  for (const question of given.keys()) {
    const index = model.questionIndex.get(question)!;
    if (questions[index]!.either !== undefined) indices.push(index);
  }
  // In the order of the rule base, so that the order of a case's answers cannot matter.
  indices.sort((a, b) => a - b);
  for (const index of indices) {
    const { id, either } = questions[index]!;
    const answer = given.get(id)!;
    const left = whichEnd(questions, either!, { answer }, known);
    // Said without its end, and the end was told by itself: it is of that one.
    const end: WhichEnd =
      left.is === 'either' && told !== undefined && !questions[index]!.safety
        ? { is: 'at', question: either![ENDS.indexOf(told)]! }
        : left;
    out.set(id, end);
    if (end.is !== 'at') continue;
    const there = questions[end.question]!.id;
    given.set(there, answer);
    const others = also.get(id);
    if (others !== undefined) also.set(there, others);
  }
  return out;
}

/**
 * The end that the rider named, where nothing that was felt is at the other one: then all that he tells is one complaint.
 */
export function endTold(
  { rules: { questions }, questionIndex }: Model,
  given: ReadonlyMap<string, string>,
): End | undefined {
  const all = [...given].map(([id, answer]) => ({ asked: questions[questionIndex.get(id)!]!, answer }));
  const named = new Set(all.flatMap(({ asked, answer }) => (isAboutEnd(asked) ? [answer] : [])));
  const [end] = ENDS.filter((one) => named.has(one));
  if (end === undefined || named.size > 1) return undefined;
  const elsewhere = all.some(
    ({ asked, answer }) =>
      asked.end !== undefined &&
      asked.end !== end &&
      asked.how !== 'stand' &&
      !asked.safety &&
      counts(answer) &&
      answer !== asked.answers[asked.default]!.id,
  );
  return elsewhere ? undefined : end;
}

function counts(answer: string): boolean {
  return answer !== CANNOT_TELL && answer !== NOT_NOW;
}
