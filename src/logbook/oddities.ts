/** What is odd about a history, in lines for whoever builds on it: it was cut, emptied, or numbered by hand. */
import type { History } from './history.ts';

/**
 * @param folder of the log
 * @param tried whether there are trials, which no log without a history has
 */
export function oddities(
  { entries, unfinished, misnumbered, isEmpty }: History,
  folder: string,
  tried: boolean,
): string[] {
  const file = `${folder}/history.yaml`;
  return [
    ...(misnumbered === undefined ? [] : [misnumbered]),
    ...(unfinished === undefined
      ? []
      : [
          `Line ${unfinished.line} of ${file} has an unfinished entry. It does not count, and the next entry puts it aside. Finish it first, or put a copy back, if it is to count.`,
        ]),
    ...(entries.length === 0 && unfinished === undefined && (isEmpty === true || tried)
      ? [
          `${file} is ${isEmpty === true ? 'empty' : 'gone'}, and this bike ${tried ? 'has trials in its log' : 'has a log'}: what was done to it is not known any more. If there is a copy of the file, put it back.`,
        ]
      : []),
  ];
}
