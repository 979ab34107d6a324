/** The line that writes down what was counted, to be copied. */
import { isCounted, type ChangeProblem } from '../../bike/change.ts';
import { changeOf, TARGET, type ResultAdjustment } from '../../report/result/result.ts';
import type { Io } from '../../host/io.ts';
import { packArgs, quoted } from '../../host/quoted.ts';

/** What stands against changes, a line each; where only a number is missing, with the line that writes it down. */
export function refusedChanges(
  problems: readonly ChangeProblem[],
  bike: string,
  { packs }: Pick<Io, 'packs'>,
): string {
  return problems
    .map(({ message, remedy, uncounted }) => {
      const line =
        uncounted === undefined
          ? ''
          : `\nThen write it down, with your number in place of N: ${setLine([numberWord(uncounted)], bike, packs)}`;
      return `${message} ${remedy}${line}`;
    })
    .join('\n');
}

/** What to write for the letters of such a line. */
export function lettersWords(numbers: readonly string[]): string {
  const target = numbers.some((one) => one.endsWith(TARGET))
    ? ", and the manufacturer's target in place of T"
    : '';
  return `with your number in place of N${target}`;
}

/**
 * What must be on the sheet before this can be set and taken back: what it measures, or where its knob stands now.
 * @returns the words of `earshot bike set`, the number as N; none where no number is missing
 */
export function toWriteDown(
  adjustment: Pick<ResultAdjustment, 'writeDown' | 'setting' | 'by' | 'unit' | 'from'>,
): readonly string[] {
  const { writeDown, from } = adjustment;
  if (writeDown.length > 0) return writeDown;
  const change = changeOf(adjustment);
  return change === undefined || from !== null
    ? []
    : [numberWord({ key: change.setting, unit: change.unit })];
}

/** What is counted in its own unit, as `earshot bike set` takes it: `rear.rebound.low=N`, `front.spring=Npsi` */
export function numberWord({ key, unit }: NonNullable<ChangeProblem['uncounted']>): string {
  return `${key}=N${isCounted(unit) ? '' : unit}`;
}

/** `earshot bike set rear.rebound.low=N --bike hazel`, with every word that is to be written down at once */
export function setLine(numbers: readonly string[], bike: string, packs: readonly string[] = []): string {
  return `earshot bike set ${numbers.join(' ')} --bike ${quoted(bike)}${packArgs(packs)}`;
}
