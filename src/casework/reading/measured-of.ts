/** A number that a case gives in the place of an answer: `{ measured: 43 %, target: 30 % }`. */
import { sheetFact } from '../../bike/facts.ts';
import { answerFor, bandTold, canRead, targetOf } from '../../bike/gauge/gauge.ts';
import { asWritten, readBand, readNumber, type Beside } from '../../bike/gauge/read-number.ts';
import type { BikeSheet } from '../../bike/sheet.ts';
import { isMap } from '../../form/plain-data.ts';
import type { Question } from '../../rulebase/compiled.ts';
import type { CaseAnswer, CaseVocabulary, Sure } from '../case.ts';
import { sureOfNumber } from './sure-of-number.ts';

/** The answer that it is, or what is wrong with it and at which key. */
export type Told =
  | { readonly answer: string; readonly sure: Sure; readonly measured: NonNullable<CaseAnswer['measured']> }
  | { readonly key: 'measured' | 'target'; readonly message: string; readonly remedy: string };

/** The bike that a case is about: its sheet, or else what the case says of it, without numbers. */
export interface KnownBike {
  readonly sheet?: BikeSheet | undefined;
  readonly said?: BikeSheet | undefined;
}

/**
 * As the interview reads it on the same bike.
 * @param target what it is held against; absent: what the sheet says, or what is usual
 */
export function measuredOf(
  { id, gauge, end }: Question,
  measured: string,
  target: string | undefined,
  { near }: Pick<CaseVocabulary, 'near'>,
  { sheet, said }: KnownBike,
): Told {
  if (gauge === undefined || end === undefined)
    return { key: 'measured', message: `${id} takes no number.`, remedy: 'Write the id of an answer.' };
  const bike = sheet ?? said;
  const spring = bike === undefined ? undefined : sheetFact(bike, `${end}.spring`);
  if (!canRead(gauge.reads, spring))
    return {
      key: 'measured',
      message:
        spring === 'coil'
          ? `The ${end} has a coil spring; it has no pressure.`
          : `The ${end} has no suspension.`,
      remedy: 'Write the id of an answer, or correct what the case or its bike sheet says of the spring.',
    };
  const beside: Beside = {
    end,
    whole:
      sheet === undefined ? undefined : end === 'front' ? sheet.ends.front.travel : sheet.ends.rear.stroke,
    pressure: sheet?.units.pressure,
    like: gauge.like,
  };
  const read = readNumber(measured, gauge.reads, beside);
  if (!read.ok) return { key: 'measured', message: read.why, remedy: '' };
  const told = target === undefined ? undefined : readBand(target, gauge.reads, beside);
  if (told?.ok === false) return { key: 'target', message: told.why, remedy: '' };
  const usual = told === undefined ? targetOf(gauge, end, sheet, near) : undefined;
  const band = told === undefined ? usual?.band : bandTold(told.band, gauge);
  if (band === undefined)
    return {
      key: 'target',
      message: `${id} does not say what the number is held against.`,
      remedy: `Say beside it what it should be: {measured: ${measured}, target: ...}, in the same unit.`,
    };
  const { unit } = read;
  const value = asWritten(read.value, unit);
  return {
    answer: answerFor(value, band, gauge),
    sure: sureOfNumber(value, usual),
    measured: { value, unit, band },
  };
}

/** Whether a case has a number in the place of an answer, so that its bike has to be known to read it. */
export function givesNumber(raw: unknown): boolean {
  if (!isMap(raw)) return false;
  const { answers, earlier } = raw;
  return (
    (isMap(answers) && Object.values(answers).some((given) => isMap(given) && 'measured' in given)) ||
    (Array.isArray(earlier) && earlier.some((round) => givesNumber(round)))
  );
}
