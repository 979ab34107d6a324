/** What an interview of the same day asked already, in one question: whether it is still so. */
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import { capital } from '../../form/text.ts';
import type { CaseAnswer } from '../../casework/case.ts';
import type { Prompter } from '../../console/prompter.ts';
import type { Event } from '../../interview/events.ts';
import type { Interview } from '../../interview/state.ts';
import type { Audience } from '../../report/evidence-words.ts';
import { toldWords } from '../../report/verdict/tried-words.ts';
import { atEither } from '../../rulebase/compiled.ts';
import type { Workspace } from '../../workspace/workspace.ts';
import type { LastInterview } from '../../workspace/cases/last-interview.ts';
import { answersText, questionOf, questionText } from './answer-texts.ts';

/**
 * What was just told goes before what was found earlier: none of it is asked about here, or taken over against it.
 * @param state what was told at the opening, confirmed
 * @returns what is still so, as events; none where nothing was asked today, or it is not, or a danger was told
 */
export async function askStill(
  workspace: Workspace,
  prompter: Prompter,
  audience: Audience,
  { steps, ended, tried, results, earlier }: Interview,
  {
    last,
    now,
    bench,
  }: { readonly last?: LastInterview | undefined; readonly now: Date; readonly bench: PreparedBike },
): Promise<Event[] | 'back'> {
  if (last === undefined || !sameDay(last.at, now) || ended !== null || !inOrder(workspace, steps)) return [];
  const found = untold(workspace, lasting(workspace, last.answers), steps);
  // What was ridden since stands in the log, and what was told now goes before what was told then.
  const before = tried === undefined && results.length + earlier.length === 0 ? (last.tried ?? []) : [];
  if (found.length + before.length === 0) return [];
  const { value } = await prompter.ask({
    head: 'Answered earlier today.',
    message: 'Is all of this still true?',
    help: [
      ...found.map(
        ({ question, ...answer }) =>
          `${questionText(workspace, question, audience)} ${capital(answersText(workspace, question, answer))}.`,
      ),
      ...before.map((one) => `Tried: ${toldWords(one, bench)}.`),
    ].join(' '),
    choices: [
      { value: 'yes', name: 'yes, all of it, and nothing was hit or changed since' },
      { value: 'no', name: 'no, or not sure: ask again' },
    ],
    actions: [{ key: 'b', value: 'back', name: 'back' }],
    deliberate: true,
  });
  if (value === 'back') return value;
  if (value !== 'yes') return [];
  return [
    ...(found.length === 0 ? [] : [{ type: 'confirm' as const, answers: found }]),
    // That nothing was tried is told as well: it is not asked a second time on one day.
    ...(tried === undefined && last.tried !== undefined && results.length + earlier.length === 0
      ? [{ type: 'tried' as const, tried: last.tried }]
      : []),
  ];
}

/**
 * What a ride does not change by itself: that nothing was found wrong before riding, and what was measured. All that is
 * asked before riding was found in order, or nothing of it is taken over.
 */
function lasting(workspace: Workspace, answers: readonly CaseAnswer[]): CaseAnswer[] {
  if (!inOrder(workspace, answers)) return [];
  const safe = answers.filter(({ question }) => questionOf(workspace, question).safety);
  const measured = answers.filter(({ question, answer }) => {
    const { measures, answers: all } = questionOf(workspace, question);
    return measures !== undefined && all.some(({ id }) => id === answer);
  });
  return [...safe, ...measured];
}

/** Whether nothing was found wrong of all that is asked before riding. */
function inOrder(
  workspace: Workspace,
  answers: readonly Pick<CaseAnswer, 'question' | 'answer' | 'also'>[],
): boolean {
  return answers.every(({ question, answer, also }) => {
    const { safety, answers: all, default: none } = questionOf(workspace, question);
    return !safety || (answer === all[none]!.id && also === undefined);
  });
}

/** Without what was told since; one thing told of what is asked before riding, and all of that is asked anew. */
function untold(
  workspace: Workspace,
  found: readonly CaseAnswer[],
  steps: Interview['steps'],
): readonly CaseAnswer[] {
  const safety = ({ question }: { readonly question: string }): boolean =>
    questionOf(workspace, question).safety;
  const unsafe = steps.some(safety);
  const told = ({ question }: CaseAnswer): boolean =>
    steps.some((s) => s.question === question || s.question === atEither(question));
  return found.filter((a) => !told(a) && !(unsafe && safety(a)));
}

function sameDay(a: Date, b: Date): boolean {
  return a.toDateString() === b.toDateString();
}
