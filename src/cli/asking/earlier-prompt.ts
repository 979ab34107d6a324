/** An earlier answer that is to be changed: which one, and to what. */
import { lessSure } from '../../casework/reading/sure-of-number.ts';
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import type { Action, Prompter } from '../../console/prompter.ts';
import { SAID } from '../../console/question-lines.ts';
import type { Event } from '../../interview/events.ts';
import type { Interview } from '../../interview/state.ts';
import type { Audience } from '../../report/evidence-words.ts';
import { CANNOT_TELL } from '../../rulebase/compiled.ts';
import type { Workspace } from '../../workspace/workspace.ts';
import { answersText, questionOf, questionText } from './answer-texts.ts';
import { askPaged } from './ask-paged.ts';
import { askFurther } from './further-prompt.ts';
import { askNumber, gaugeHere, lineOrReading, numbersHere, type ToldRider } from './number-prompt.ts';

/** What a question is asked with. */
export interface Asking {
  readonly workspace: Workspace;
  readonly bench: PreparedBike;
  readonly state: Interview;
  readonly prompter: Prompter;
  readonly audience: Audience;
  readonly rider: ToldRider;
}

/** The letter for an answer that nobody knows. */
export const CANNOT: Action = { key: 'c', value: 'cannot-tell', name: "can't tell", answers: true };

/** Which earlier answer to change, and to what; undefined when the user thinks better of it. */
export async function askEarlier({
  workspace,
  bench,
  state,
  prompter,
  audience,
  rider,
}: Asking): Promise<Event | undefined> {
  const leave: Action = { key: 'b', value: 'leave', name: 'back, no change' };
  const { value: which } = await askPaged(prompter, {
    head: '',
    message: 'Change which answer? Latest first.',
    choices: state.steps.toReversed().map(({ question, ...answer }) => ({
      value: question,
      name: `${questionText(workspace, question, audience)}: ${answersText(workspace, question, answer)}`,
    })),
    actions: [leave],
  });
  if (which === leave.value) return undefined;
  const question = questionOf(workspace, which);
  const before = state.steps.find((s) => s.question === which)!;
  const gauge = gaugeHere(question, bench);
  const picked = await prompter.ask({
    head: `So far: ${answersText(workspace, which, before)}`,
    message: questionText(workspace, which, audience),
    choices: question.answers.map((a) => ({ value: `answer:${a.id}`, name: a.text })),
    actions: [CANNOT, leave],
    sure: 'sure',
    deliberate: question.safety,
    ...(gauge === undefined ? {} : { numbers: numbersHere(gauge) }),
  });
  const { value: answer, sure, text = '' } = await lineOrReading(prompter, picked, question, gauge);
  if (answer === leave.value) return undefined;
  if (answer === SAID) {
    const asked = { ...question, gauge: gauge!, end: question.end! };
    const measure = await askNumber(prompter, text, asked, bench, rider);
    return measure === undefined
      ? undefined
      : { type: 'change', question: which, ...measure, sure: lessSure(sure, measure.sure) };
  }
  if (answer === CANNOT.value) return { type: 'change', question: which, answer: CANNOT_TELL };
  const given = answer.slice('answer:'.length);
  const also = await askFurther(prompter, question, given, questionText(workspace, which, audience));
  if (also === undefined) return undefined;
  return { type: 'change', question: which, answer: given, ...(also.length === 0 ? {} : { also }), sure };
}
