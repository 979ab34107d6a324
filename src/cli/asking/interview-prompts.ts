/** The prompts of an interview: each turns what was chosen into one event of the session. */
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import type { Sure } from '../../casework/case.ts';
import { atEither, CANNOT_TELL, NOT_NOW } from '../../rulebase/compiled.ts';
import type { Action } from '../../console/prompter.ts';
import { SAID } from '../../console/question-lines.ts';
import { running, why } from '../../interview/why.ts';
import { canBeEither } from '../../interview/answers.ts';
import type { Event } from '../../interview/events.ts';
import { look } from '../../interview/settle.ts';
import { askedOn, type Interview } from '../../interview/state.ts';
import { onTargetText } from '../../report/gauge-text.ts';
import { onSheetText } from '../../report/bike/on-sheet-text.ts';
import { runningLine, whereText, whyText } from '../../report/interview-text.ts';
import { paragraph } from '../../report/wrap.ts';
import type { Question } from '../../rulebase/compiled.ts';
import { lessSure } from '../../casework/reading/sure-of-number.ts';
import { questionOf } from './answer-texts.ts';
import { askPaged } from './ask-paged.ts';
import { askEarlier, CANNOT, type Asking } from './earlier-prompt.ts';
import { askFurther } from './further-prompt.ts';
import type { Workspace } from '../../workspace/workspace.ts';
import { askNumber, gaugeHere, lineOrReading, numbersHere } from './number-prompt.ts';
import { showRead } from './show-read.ts';
import { explainWords } from './words/words-prompt.ts';

/** Asks the current question until an event comes of it. */
export async function askQuestion(asking: Asking): Promise<Event> {
  const { workspace, bench, state, prompter, audience, rider } = asking;
  const { model } = workspace;
  const { questions } = bench.rules;
  const at = (id: string): Question => questions[model.questionIndex.get(id)!]!;
  const question = at(state.current!);
  const unknownEnd =
    question.how !== 'stand' && canBeEither(model, question.id) ? at(atEither(question.id)) : undefined;
  const head = runningLine(
    state.reopened === undefined ? countOf(workspace, state) : { left: state.reopened.length },
    whereText(question.how, question.minutes),
    state.steps.some((s) => told(workspace, s))
      ? running(model, bench, look(model, bench, state))
      : undefined,
    audience,
  );
  const textOf = ({ plain, ask }: Question): string => (audience === 'rider' ? plain : ask);
  const onSheet = onSheetText(bench.sheet, question.onSheet ?? readOf(bench, question));
  const gauge = gaugeHere(question, bench);
  const message = [textOf(question), onSheet ?? []].flat().join(' ');
  const words = explainWords(
    workspace,
    prompter,
    [message, ...(audience === 'rider' ? [question.help] : []), ...question.answers.map((a) => a.text), head],
    audience === 'rider' || question.plain === question.ask ? undefined : question.plain,
  );
  let sure: Sure = 'sure';
  let either = false;
  let several = false;
  for (let again = false; ; again = true) {
    const target =
      gauge === undefined
        ? undefined
        : onTargetText(gauge, question.end!, bench.sheet, bench.rules, bench.sheet?.riderMass ?? rider.mass);
    const picked = await askPaged(prompter, {
      head: several ? 'Pick all that fit, one after the other.' : head,
      again: again && !several,
      message: either ? textOf(unknownEnd!) : message,
      note: target,
      // Whoever comes to measure is told how.
      help:
        audience === 'rider' || state.reopened?.includes(question.id) === true ? question.help : undefined,
      choices: question.answers.map((a) => ({ value: `answer:${a.id}`, name: a.text })),
      actions: lettersOf(question, state, {
        either: unknownEnd !== undefined && !either,
        several: question.list === true && !several,
      }),
      sure,
      deliberate: question.safety,
      terse: audience === 'mechanic',
      ...(gauge === undefined ? {} : { numbers: numbersHere(gauge) }),
    });
    const chosen = await lineOrReading(prompter, picked, question, gauge);
    ({ sure } = chosen);
    const { value } = chosen;
    switch (value) {
      case SAID: {
        const asked = { ...question, gauge: gauge!, end: question.end! };
        const measure = await askNumber(prompter, chosen.text!, asked, bench, rider);
        if (measure !== undefined) return { type: 'answer', ...measure, sure: lessSure(sure, measure.sure) };
        break;
      }
      case 'back':
        // The end was left open by a slip, or several answers wanted: first that is taken back.
        if (!either && !several) return { type: value };
        if (several) several = false;
        else either = false;
        break;
      case 'cannot-tell':
      case 'not-now':
      case 'finish':
        return { type: value };
      case 'either':
        either = true;
        break;
      case 'several':
        several = true;
        break;
      case 'why':
        await showRead(
          prompter,
          whyText(why(model, bench, state, question.id), question.safety, prompter.style),
        );
        break;
      case 'help':
        await showRead(prompter, `${paragraph(question.help, prompter.style.width - 1, '  ')}\n`);
        break;
      case 'words':
        await words();
        break;
      case 'earlier': {
        const event = await askEarlier(asking);
        if (event !== undefined) return event;
        break;
      }
      default: {
        const answer = value.slice('answer:'.length);
        const asked = either ? textOf(unknownEnd!) : message;
        const also = several ? await askFurther(prompter, question, answer, asked) : [];
        if (also === undefined) break;
        return {
          type: 'answer',
          answer,
          ...(also.length === 0 ? {} : { also }),
          sure,
          ...(either ? { end: 'either' as const } : {}),
        };
      }
    }
  }
}

/** The number that the question is about, as a sheet has it. */
function readOf({ rules }: PreparedBike, { measures }: Question): string | undefined {
  const setting = rules.settings.find(({ id }) => id === measures);
  return setting?.sheet === 'sag' ? `${setting.end}.sag.measured` : setting?.id;
}

function lettersOf(
  question: Question,
  state: Interview,
  { either, several }: { readonly either: boolean; readonly several: boolean },
): Action[] {
  return [
    CANNOT,
    ...(several ? [{ key: 'a', value: 'several', name: 'more than one fits', brief: 'several' }] : []),
    ...(either ? [{ key: 'u', value: 'either', name: "don't know which end", brief: 'end unknown' }] : []),
    // A safety question may be unknown, but not put off.
    ...(question.safety ? [] : [{ key: 'n', value: 'not-now', name: 'not now', answers: true }]),
    { key: 'w', value: 'why', name: 'why this question', brief: 'why' },
    { key: 'b', value: 'back', name: 'back' },
    ...(state.steps.length === 0
      ? []
      : [{ key: 'e', value: 'earlier', name: 'change an earlier answer', brief: 'earlier' }]),
    { key: 'f', value: 'finish', name: 'finish', brief: 'finish' },
    { key: '?', value: 'words', name: 'words explained', brief: 'words' },
  ];
}

/** Which question it is; past enough also how far that still goes. */
function countOf(workspace: Workspace, state: Interview): Parameters<typeof runningLine>[0] {
  const number = numberOf(workspace, state);
  const on = askedOn(state, workspace.rules.numbers);
  return on === undefined ? number : { number, ...on };
}

/** The first one asked is 1: what was confirmed of the rider's own words stands before it, and is no question. */
function numberOf(workspace: Workspace, { steps }: Interview): number {
  const first = steps.findIndex(({ question }) => questionOf(workspace, question).safety);
  return first < 0 ? 1 : steps.length - first + 1;
}

/** Safety comes first and says nothing about settings; so does an answer that is none. */
function told(workspace: Workspace, { question, answer }: Interview['steps'][number]): boolean {
  return answer !== CANNOT_TELL && answer !== NOT_NOW && !questionOf(workspace, question).safety;
}
