/** A number that a case gives in the place of an answer: `{ measured: 43 %, target: 30 % }`. */
import { sheetFact } from '../../bike/facts.ts';
import { answerFor, bandTold, canRead, targetOf, type Reads } from '../../bike/gauge/gauge.ts';
import { asWritten, readBand, readNumber, type Beside } from '../../bike/gauge/read-number.ts';
import type { BikeSheet, UnitChoice } from '../../bike/sheet.ts';
import { isMap } from '../../form/plain-data.ts';
import type { Question } from '../../rulebase/compiled.ts';
import type { CaseAnswer, CaseVocabulary, Sure } from '../case.ts';
import { sureOfNumber } from './sure-of-number.ts';

/** The answer that it is, or what is wrong with it and at which key. */
export type Told =
  | { readonly answer: string; readonly sure: Sure; readonly measured: NonNullable<CaseAnswer['measured']> }
  | { readonly key: keyof TextOfNumber; readonly message: string; readonly remedy: string };

/** As it is written. */
export interface TextOfNumber {
  readonly measured: string;
  /** what it is held against; absent: what the sheet says, or what is usual */
  readonly target?: string | undefined;
  /** of a sag: the pressure in the air spring when it was read */
  readonly at?: string | undefined;
}

/** The bike that a case is about: its sheet, or else what the case says of it, without numbers. */
export interface KnownBike {
  readonly sheet?: BikeSheet | undefined;
  readonly said?: BikeSheet | undefined;
}

/** As the interview reads it on the same bike. */
export function measuredOf(
  { id, gauge, end }: Question,
  { measured, target, at }: TextOfNumber,
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
  const held =
    at === undefined ? undefined : pressureAt(at, gauge.reads, spring, { ...beside, like: undefined });
  if (held?.ok === false) return { key: 'at', message: held.why, remedy: held.remedy };
  const { unit, length } = read;
  const value = asWritten(read.value, unit);
  return {
    answer: answerFor(value, band, gauge),
    sure: sureOfNumber(value, usual),
    measured: {
      value,
      unit,
      band,
      ...(length === undefined ? {} : { length }),
      ...(held === undefined ? {} : { at: held.at }),
    },
  };
}

/** The pressure that a sag was read at. @param spring as `sheetFact` has it */
export function pressureAt(
  text: string,
  reads: Reads,
  spring: string | undefined,
  beside: Beside,
):
  | { readonly ok: true; readonly at: NonNullable<NonNullable<CaseAnswer['measured']>['at']> }
  | { readonly ok: false; readonly why: string; readonly remedy: string } {
  if (reads !== 'sag' || !canRead('spring', spring))
    return {
      ok: false,
      why: 'Only the sag of an air spring is read at a pressure.',
      remedy: 'Leave at: out.',
    };
  const read = readNumber(text, 'spring', beside);
  if (!read.ok) return { ok: false, why: read.why, remedy: '' };
  const unit = read.unit as UnitChoice['pressure'];
  return { ok: true, at: { pressure: asWritten(read.value, unit), unit } };
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
