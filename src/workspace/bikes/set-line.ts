/** The line that writes down what was counted, to be copied. */
import type { ChangeProblem } from '../../bike/change.ts';
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
          : `\nThen write it down, the number for N: ${setLine(uncounted, bike, packs)}`;
      return `${message} ${remedy}${line}`;
    })
    .join('\n');
}

/** `earshot bike set rear.rebound.low=N --bike hazel` */
export function setLine(
  { key, unit }: NonNullable<ChangeProblem['uncounted']>,
  bike: string,
  packs: readonly string[] = [],
): string {
  const number = unit === 'clicks' || unit === 'spacers' || unit === 'positions' ? 'N' : `N${unit}`;
  return `earshot bike set ${key}=${number} --bike ${quoted(bike)}${packArgs(packs)}`;
}
