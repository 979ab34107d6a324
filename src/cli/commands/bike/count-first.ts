/** "I counted it": a change that only lacks where its setting stands is not the end of the road. */
import { applyChange } from '../../../bike/apply.ts';
import { isCounted, type Change } from '../../../bike/change.ts';
import { settingWords } from '../../../bike/setting-words.ts';
import type { BikeSheet } from '../../../bike/sheet.ts';
import { Left, type Prompter } from '../../../console/prompter.ts';
import { whereIs } from '../../../report/plain-words.ts';
import { paragraph } from '../../../report/wrap.ts';
import { EXIT, Refusal, type Io } from '../../../host/io.ts';

interface Counting {
  readonly bike: string;
  readonly sheet: BikeSheet;
  readonly changes: readonly Change[];
  /** which say where a knob usually is; absent: that is not said */
  readonly rules?: Parameters<typeof whereIs>[1] | undefined;
  /** absent: nobody can be asked here */
  readonly prompter?: (() => Promise<Prompter>) | undefined;
}

/**
 * Asks for what was counted, where that is all that is missing, and writes it onto the sheet and into the log.
 * @returns whether anything was written: then the bike is to be opened anew
 */
export async function countFirst(
  { bike, sheet, changes, rules, prompter: open }: Counting,
  io: Io,
): Promise<boolean> {
  if (open === undefined || !io.stdinIsTty || !io.stdoutIsTty) return false;
  for (const change of changes) {
    const applied = applyChange(sheet, change);
    if (!('message' in applied) || applied.uncounted === undefined) continue;
    const { key, unit } = applied.uncounted;
    const prompter = await open();
    try {
      const { setOnSheet } = await import('./set.ts');
      const words = settingWords(change.setting, sheet);
      for (;;) {
        const typed = await askNumber(prompter, words, unit, [
          rules === undefined ? undefined : whereIs(change, rules),
          applied.remedy,
        ]);
        if (typed === undefined) break;
        const value = /[a-z]$/i.test(typed) || isCounted(unit) ? typed : `${typed}${unit}`;
        try {
          await setOnSheet(
            { bike, values: [`${key}=${value}`], reason: 'counted', style: prompter.style },
            io,
          );
          return true;
        } catch (error) {
          // A slip of the keys is said, and it is asked again.
          if (!(error instanceof Refusal) || error.exit !== EXIT.some) throw error;
          prompter.say(`${paragraph(error.message, prompter.style.width - 1, '  ')}\n`);
        }
      }
    } catch (error) {
      if (error instanceof Left) throw new Refusal('Nothing was written.', EXIT.interrupted);
      throw error;
    } finally {
      await prompter.close();
    }
  }
  return false;
}

/** @returns undefined when it was not counted */
async function askNumber(
  prompter: Prompter,
  words: string,
  unit: string,
  how: readonly (string | undefined)[],
): Promise<string | undefined> {
  const { value } = await prompter.ask({
    head: `Before the ${words} is turned, find out where it stands. ${how.flatMap((one) => one ?? []).join(' ')}`,
    message: `Where is the ${words} now?`,
    choices: [
      { value: 'counted', name: unit === 'clicks' ? 'I counted it' : 'I know it' },
      { value: 'later', name: 'not now' },
    ],
    actions: [],
  });
  if (value === 'later') return undefined;
  for (;;) {
    const typed = (
      await prompter.text(unit === 'clicks' ? 'Clicks from fully closed:' : `In ${unit}:`)
    ).trim();
    if (/^\d/.test(typed) || (unit === 'positions' && typed !== '')) return typed.replace(',', '.');
    prompter.say(`${paragraph('Type the number.', prompter.style.width - 1, '  ')}\n`);
  }
}
