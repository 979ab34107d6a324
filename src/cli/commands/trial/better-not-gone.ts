/** A trial that kept its step while what bothered is not gone: that is asked, and gone on from. */
import { applyChange } from '../../../bike/apply.ts';
import { printChange } from '../../../bike/change.ts';
import type { BikeSheet } from '../../../bike/sheet.ts';
import { Left } from '../../../console/prompter.ts';
import type { Io } from '../../../host/io.ts';
import { packArgs, quoted } from '../../../host/quoted.ts';
import type { Style } from '../../../report/style.ts';
import { paragraph } from '../../../report/wrap.ts';
import { tidy, type Trial } from '../../../trials/trial.ts';
import { openToWrite } from '../../../workspace/bikes/open-bike.ts';
import { stillBothers } from '../../asking/end/after-ridden.ts';
import type { Here } from '../../takes.ts';

/** Whether something of what bothered is left; whoever leaves here says nothing of it. */
export async function isLeft(open: Here['prompter']): Promise<boolean> {
  const prompter = await open();
  try {
    const { value } = await prompter.ask({
      head: 'The step stays on the bike.',
      message: 'Is what bothered the rider gone?',
      choices: [
        { value: 'gone', name: 'yes, gone' },
        { value: 'left', name: 'better, but not gone' },
      ],
      actions: [],
      deliberate: true,
    });
    return value === 'left';
  } catch (error) {
    if (!(error instanceof Left)) throw error;
    return false;
  } finally {
    await prompter.close();
  }
}

/** Where a trial is ended, and gone on from. */
export type AtTheBike = Pick<Here, 'rules' | 'prompter'> & { readonly file: string; readonly style: Style };

/**
 * On from the answers that advised the step, as a new interview; where there are none, with the same step again.
 * @param kept what the setting was left at: with both ways tried that need not be the step that was advised
 */
export async function stepAgain(
  { case: from, change }: Trial,
  kept: number,
  sheet: BikeSheet,
  { file, rules, prompter, style }: AtTheBike,
  io: Io,
): Promise<void> {
  const { log } = await openToWrite(file, io);
  const told = from === undefined ? undefined : (await log.loadCases()).papers.find(({ id }) => id === from);
  if (told !== undefined) {
    const { interview } = await import('../interview.ts');
    const begun = { from: stillBothers(told.data, io), bike: file, rules, prompter, log: true } as const;
    await interview({ ...begun, for: undefined, id: undefined, save: undefined, resume: undefined }, io);
    return;
  }
  const { setting, unit } = change;
  const again = { setting, unit, by: tidy(kept - change.from) };
  const at = `--bike ${quoted(file)}${packArgs(rules)}`;
  const line =
    'message' in applyChange(sheet, again)
      ? `It goes no further that way. Find out what else it is: earshot interview ${at}`
      : `The same step again: earshot trial plan ${at} --change ${quoted(printChange([again]))}`;
  await io.out(`${paragraph(line, style.width)}\n`);
}
