/** What a gauge still asks for once its step was kept: the next step toward the target, or the reading that tells. */
import { isByGauge } from '../advice/by-gauge.ts';
import { aspect, printChange } from '../bike/change.ts';
import { settingWords } from '../bike/setting-words.ts';
import type { BikeSheet } from '../bike/sheet.ts';
import { hasReading } from '../diagnosis/sheet-evidence.ts';
import { capital } from '../form/text.ts';
import { quoted } from '../host/quoted.ts';
import type { Entry } from '../logbook/entry.ts';
import { changeWords } from '../report/bike/change-words.ts';
import type { NextThing } from '../report/bike/next-text.ts';
import { standWords, type Trial } from '../trials/trial.ts';
import { setLine } from './bikes/set-line.ts';
import type { Workspace } from './workspace.ts';

/**
 * What the rules check once such a step stays, until anything was written down after its verdict.
 * @param trial as in `stillOff`
 */
export function thenCheck(
  { change, id }: Trial,
  { rules }: Pick<Workspace, 'rules'>,
  sheet: BikeSheet,
  entries: readonly Entry[],
  file: string,
): NextThing[] {
  const last = entries.at(-1);
  if (last?.result === undefined || last.trial !== id) return [];
  const step = { setting: change.setting, by: change.to - change.from, unit: change.unit };
  const check = rules.adjustments.find(
    (a) =>
      a.onceKept !== undefined &&
      a.change?.setting === step.setting &&
      aspect(a.change.unit) === aspect(step.unit) &&
      Math.sign(a.change.by) === Math.sign(step.by),
  )?.onceKept;
  if (check === undefined) return [];
  const [what] = check.split(':');
  return [
    {
      kind: 'find-out',
      do: `The ${settingWords(change.setting, sheet)} is kept at ${standWords(change, change.to)}. ${capital(check)}. When it is done:`,
      command: `earshot log note ${quoted(what!)} --bike ${quoted(file)}`,
    },
  ];
}

/** @param last the trial that was judged last: its step was kept, and was not taken back */
export async function stillOff(
  { byGauge, change, verdict }: Trial,
  { model, bench }: Pick<Workspace, 'model' | 'bench'>,
  sheet: BikeSheet,
  file: string,
): Promise<NextThing[]> {
  // One that goes on by its ratings has a next step already.
  if (verdict !== 'keep') return [];
  const setting = model.rules.settings.find(({ id }) => id === change.setting);
  if (setting?.end === undefined) return [];
  const name = settingWords(change.setting, sheet);
  if (byGauge === true && setting.sheet === 'sag' && !hasReading(sheet, setting))
    return [
      {
        kind: 'count',
        do: `${capital(name)} was set to ${standWords(change, change.to)}, because ${setting.end} sag was off. Measure it again, with your number in place of N:`,
        command: setLine([`${setting.end}.sag=N%`], file),
      },
    ];
  const { adjustments } = model.rules;
  const asked = adjustments.flatMap((a, i) =>
    a.change?.setting === change.setting && isByGauge(model, sheet, a) ? [i] : [],
  );
  if (asked.length === 0) return [];
  const { possible } = await bench(sheet);
  for (const index of asked) {
    const can = possible[index]!;
    if (!can.can || can.step === undefined) continue;
    const { setting: turned, by, unit } = can.step;
    const step = [{ setting: turned, by, unit }];
    return [
      {
        kind: 'further',
        do: `The ${name} is kept at ${standWords(change, change.to)}, and is still off its target. Next: ${changeWords({ changes: step }, sheet)}. Plan its trial:`,
        command: `earshot trial plan --bike ${quoted(file)} --change ${quoted(printChange(step))}`,
      },
    ];
  }
  return [];
}
