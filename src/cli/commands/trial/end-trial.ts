/** The end of a trial at the prompt: the verdict after the last run, and on a yes what it says is written down. */
import { Left, type Choice } from '../../../console/prompter.ts';
import type { Io } from '../../../host/io.ts';
import { judgementText } from '../../../report/bike/trial-text.ts';
import type { Style } from '../../../report/style.ts';
import { foldCommand, paragraph } from '../../../report/wrap.ts';
import { judge, type Judgement } from '../../../trials/judge.ts';
import type { Trial } from '../../../trials/trial.ts';
import { againWords, isOver } from '../../../trials/verdict-words.ts';
import { openToWrite } from '../../../workspace/bikes/open-bike.ts';
import { outlookOf } from '../../../workspace/outlook.ts';
import type { Here } from '../../takes.ts';
import { judgeTrial, whatNext } from './judge.ts';

/** @returns left: nothing was written, and the trial is open still; more: the same, and its runs are ridden again */
export async function endTrial(
  trial: Trial,
  {
    file,
    rules,
    prompter,
    style,
  }: Pick<Here, 'rules' | 'prompter'> & { readonly file: string; readonly style: Style },
  io: Io,
): Promise<'written' | 'left' | 'more'> {
  const judged = judge(trial);
  const open = judged.verdict === 'cannot-tell' && !isOver(judged);
  // Nothing can be compared yet: it goes on.
  if (open && judged.more?.verdict === undefined) return 'left';
  await io.out(`\n${judgementText(trial, judged, [], !open, style)}`);
  const wanted = await askedEnd(trial, judged, prompter);
  if (wanted !== 'yes') return open && wanted === 'no' ? 'more' : 'left';
  const bike = await openToWrite(file, io);
  const { done, sheet } = await judgeTrial(trial, bike, true, io);
  const put = (text: string): string => paragraph(text, style.width);
  const further = ['further', 'half'].includes(judged.verdict)
    ? whatNext(trial, judged, true, sheet, file, io)
    : undefined;
  const lines = ['', ...done.map(put), ...(further ?? []).map(put)];
  if (further === undefined) {
    const { next } = await outlookOf(file, await openToWrite(file, io), rules, io);
    lines.push(...next.do.split('\n').map(put));
    if (next.command !== undefined) lines.push(foldCommand(next.command, style.width));
  }
  await io.out(`${lines.join('\n')}\n`);
  return 'written';
}

/** Where more runs would tell, riding them comes first, and ending it without a verdict last. */
function choicesOf(trial: Trial, judged: Judgement): readonly Choice[] {
  const { verdict, more } = judged;
  if (verdict !== 'cannot-tell')
    return [{ value: 'yes', name: 'yes, write it down: sheet and log' }, NOT_YET];
  const end = { value: 'yes', name: 'yes, end it and write that down' };
  if (isOver(judged)) return [end, NOT_YET];
  return [
    { value: 'no', name: `no: ${againWords(trial, more!.runs)}` },
    { ...end, name: 'yes, end it without a verdict' },
  ];
}

const NOT_YET: Choice = { value: 'no', name: 'not yet: a run is wrong, or I will ride more' };

async function askedEnd(
  trial: Trial,
  judged: Judgement,
  open: Here['prompter'],
): Promise<'yes' | 'no' | 'left'> {
  const prompter = await open();
  try {
    const { value } = await prompter.ask({
      head: '',
      message: 'Is that the end of this trial?',
      choices: choicesOf(trial, judged),
      actions: [],
    });
    return value === 'yes' ? 'yes' : 'no';
  } catch (error) {
    // The run is written down; only the verdict waits.
    if (error instanceof Left) return 'left';
    throw error;
  } finally {
    await prompter.close();
  }
}
