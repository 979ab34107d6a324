/** The end of a trial at the prompt: the verdict after the last run, and on a yes what it says is written down. */
import { Left, type Choice } from '../../../console/prompter.ts';
import type { Io } from '../../../host/io.ts';
import { judgementText } from '../../../report/bike/trial-text.ts';
import { paragraph } from '../../../report/wrap.ts';
import { judge, type Judgement } from '../../../trials/judge.ts';
import type { Trial } from '../../../trials/trial.ts';
import { againWords, isOver, keptOnWord } from '../../../trials/verdict-words.ts';
import { openToWrite } from '../../../workspace/bikes/open-bike.ts';
import type { Here } from '../../takes.ts';
import { sayNext } from '../../asking/end/after-ridden.ts';
import { isLeft, stepAgain, type AtTheBike } from './better-not-gone.ts';
import { judgeTrial, whatNext } from './judge.ts';

/** @returns left: nothing was written, and the trial is open still; more: the same, and its runs are ridden again */
export async function endTrial(
  trial: Trial,
  { file, rules, prompter, style }: AtTheBike,
  io: Io,
): Promise<'written' | 'left' | 'more'> {
  const judged = judge(trial);
  const open = judged.verdict === 'cannot-tell' && !isOver(judged);
  // Nothing can be compared yet: it goes on.
  if (open && judged.more?.verdict === undefined) return 'left';
  await io.out(`\n${judgementText(trial, judged, [], !open, style)}`);
  const wanted = await askedEnd(trial, judged, prompter);
  if (wanted === 'left' || wanted === 'no') return open && wanted === 'no' ? 'more' : 'left';
  const bike = await openToWrite(file, io);
  const ended = wanted === 'keep' ? keptOnWord(judged)! : judged;
  const { done, sheet } = await judgeTrial(trial, bike, true, io, ended);
  const put = (text: string): string => paragraph(text, style.width);
  await io.out(`${['', ...done.map(put)].join('\n')}\n`);
  // What a gauge asked for is measured next, whatever is felt.
  if (ended.verdict === 'keep' && ended.byGauge !== true && (await isLeft(prompter)))
    await stepAgain(trial, ended.set, sheet, { file, rules, prompter, style }, io);
  else if (ended.verdict === 'further' || ended.verdict === 'half')
    await io.out(`${whatNext(trial, judged, true, sheet, file, io).map(put).join('\n')}\n`);
  else await sayNext(file, { rules, style }, io);
  return 'written';
}

/** Where more runs would tell, riding them comes first, and ending it without a verdict last. */
function choicesOf(trial: Trial, judged: Judgement): readonly Choice[] {
  const { verdict, more } = judged;
  if (verdict !== 'cannot-tell')
    return [{ value: 'yes', name: 'yes, write it down: sheet and log' }, NOT_YET];
  const end = { value: 'yes', name: 'yes, end it and write that down' };
  const keep =
    keptOnWord(judged) === undefined
      ? []
      : [{ value: 'keep', name: "yes, end it and keep the step, on the rider's word" }];
  if (isOver(judged)) return [...keep, end, NOT_YET];
  return [
    { value: 'no', name: `no: ${againWords(trial, more!.runs)}` },
    ...keep,
    { ...end, name: 'yes, end it without a verdict' },
  ];
}

const NOT_YET: Choice = { value: 'no', name: 'not yet: a run is wrong, or I will ride more' };

async function askedEnd(
  trial: Trial,
  judged: Judgement,
  open: Here['prompter'],
): Promise<'yes' | 'keep' | 'no' | 'left'> {
  const prompter = await open();
  try {
    const { value } = await prompter.ask({
      head: '',
      message: 'Is that the end of this trial?',
      choices: choicesOf(trial, judged),
      actions: [],
    });
    return value === 'yes' || value === 'keep' ? value : 'no';
  } catch (error) {
    // The run is written down; only the verdict waits.
    if (error instanceof Left) return 'left';
    throw error;
  } finally {
    await prompter.close();
  }
}
