/** The end of a trial at the prompt: the verdict after the last run, and on a yes what it says is written down. */
import { Left, type Choice } from '../../../console/prompter.ts';
import type { Io } from '../../../host/io.ts';
import { judgementText } from '../../../report/bike/trial-text.ts';
import type { Style } from '../../../report/style.ts';
import { foldCommand, paragraph } from '../../../report/wrap.ts';
import { judge, type Judgement } from '../../../trials/judge.ts';
import type { Trial } from '../../../trials/trial.ts';
import { openToWrite } from '../../../workspace/bikes/open-bike.ts';
import { outlookOf } from '../../../workspace/outlook.ts';
import type { Here } from '../../takes.ts';
import { judgeTrial, whatNext } from './judge.ts';

/** @returns left: nothing was written, and the trial is open still */
export async function endTrial(
  trial: Trial,
  {
    file,
    rules,
    prompter: open,
    style,
  }: Pick<Here, 'rules' | 'prompter'> & { readonly file: string; readonly style: Style },
  io: Io,
): Promise<'written' | 'left'> {
  const judged = judge(trial);
  // More runs may tell: it goes on.
  if (judged.verdict === 'cannot-tell' && judged.more !== null) return 'left';
  await io.out(`\n${judgementText(trial, judged, [], true, style)}`);
  if (!(await isWanted(judged, open))) return 'left';
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

async function isWanted({ verdict }: Judgement, open: Here['prompter']): Promise<boolean> {
  const yes: Choice = {
    value: 'yes',
    name: verdict === 'cannot-tell' ? 'yes, end it and write that down' : 'yes, write it down: sheet and log',
  };
  const prompter = await open();
  try {
    const { value } = await prompter.ask({
      head: '',
      message: 'Is that the end of this trial?',
      choices: [yes, { value: 'no', name: 'not yet: a run is wrong, or I will ride more' }],
      actions: [],
    });
    return value === yes.value;
  } catch (error) {
    // The run is written down; only the verdict waits.
    if (error instanceof Left) return false;
    throw error;
  } finally {
    await prompter.close();
  }
}
