/** What is wrong with a record of a case and with the bike that it names, a line each, from the top of the file down. */
import type { CaseVocabulary } from '../../casework/case.ts';
import { isMap } from '../../form/plain-data.ts';
import { inOrder, pathLine, type PathProblem } from '../../form/problem.ts';
import { Refusal } from '../../host/io.ts';
import type { CaseRecord } from './case-texts.ts';

export function linesOf({ name, locate }: CaseRecord, problems: readonly PathProblem[]): string[] {
  if (locate === undefined) return problems.map((one) => pathLine(name, one));
  // A line number says which case of a file is meant.
  const file = name.replace(/#.*$/, '');
  return inOrder(problems, locate).map((one) => pathLine(file, one, locate));
}

/** The bike as the data has it, whatever else is in there; undefined where it names none. */
export function namedBike({ data }: CaseRecord): string | Readonly<Record<string, unknown>> | undefined {
  const bike = isMap(data) ? data['bike'] : undefined;
  return typeof bike === 'string' || isMap(bike) ? bike : undefined;
}

/**
 * A case whose bike cannot be read: why, among all else that is wrong with it.
 * @param error what reading the bike threw
 * @throws the error itself where it is no refusal
 */
export async function withoutBike(
  record: CaseRecord,
  vocabulary: CaseVocabulary,
  error: unknown,
): Promise<{ readonly faults: readonly string[] }> {
  if (!(error instanceof Refusal)) throw error;
  const { readCase } = await import('../../casework/reading/read-case.ts');
  const { problems } = readCase(record.data, vocabulary, record.name, undefined, true);
  const bike = { path: ['bike'], severity: 'error', message: `bike: ${error.message}`, remedy: '' } as const;
  return { faults: linesOf(record, [bike, ...problems]) };
}
