/** A number that a case gives in the place of an answer: `{ measured: 43 %, target: 30 % }`. */
import { answerFor, bandTold, targetOf } from '../../bike/gauge/gauge.ts';
import { readBand, readNumber } from '../../bike/gauge/read-number.ts';
import type { Question } from '../../rulebase/compiled.ts';
import type { CaseAnswer, CaseVocabulary } from '../case.ts';

/** The answer that it is, or what is wrong with it and at which key. */
export type Told =
  | { readonly answer: string; readonly measured: NonNullable<CaseAnswer['measured']> }
  | { readonly key: 'measured' | 'target'; readonly message: string; readonly remedy: string };

/** @param target what it is held against; absent: what is usual, as far as the pack knows it without a bike */
export function measuredOf(
  { id, gauge, end }: Question,
  measured: string,
  target: string | undefined,
  { near }: Pick<CaseVocabulary, 'near'>,
): Told {
  if (gauge === undefined || end === undefined)
    return { key: 'measured', message: `${id} takes no number.`, remedy: 'Write the id of an answer.' };
  const read = readNumber(measured, gauge.reads, { end });
  if (!read.ok) return { key: 'measured', message: read.why, remedy: '' };
  const told = target === undefined ? undefined : readBand(target, gauge.reads, { end });
  if (told?.ok === false) return { key: 'target', message: told.why, remedy: '' };
  const band = told === undefined ? targetOf(gauge, end, undefined, near)?.band : bandTold(told.band, gauge);
  if (band === undefined)
    return {
      key: 'target',
      message: `${id} does not say what the number is held against.`,
      remedy: 'Add target: with the figure that it should be.',
    };
  return {
    answer: answerFor(read.value, band, gauge),
    measured: { value: read.value, unit: read.unit, band },
  };
}
