/** Whether a gate or a need asks the bike sheet something that it can say. */
import { didYouMean } from '../form/suggest.ts';

/**
 * @param facts every path of the sheet with the values it can have
 * @param wrong takes what does not fit, as the end of a sentence, and the remedy
 */
export function checkFact(
  facts: ReadonlyMap<string, readonly string[]>,
  path: string,
  values: readonly string[],
  wrong: (message: string, remedy: string) => void,
): void {
  const known = facts.get(path);
  if (known === undefined) {
    wrong(
      `asks the bike sheet for ${path}, which it does not have.`,
      didYouMean(path, facts.keys()) || `The sheet can say: ${[...facts.keys()].join(', ')}.`,
    );
    return;
  }
  for (const value of values)
    if (!known.includes(value))
      wrong(
        `asks for ${path}: ${value}, which the sheet never says.`,
        didYouMean(value, known) || `It says ${known.join(', ')}.`,
      );
}

const BIKE = 'bike.';

/** The path on the sheet that `bike.front.spring` asks for; undefined where a question is asked. */
export function factPath(asked: string): string | undefined {
  return asked.startsWith(BIKE) ? asked.slice(BIKE.length) : undefined;
}
