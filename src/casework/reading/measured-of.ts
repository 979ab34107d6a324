/** A number that a case gives in the place of an answer: `{ measured: 43 %, target: 30 % }`. */
import { sheetFact } from '../../bike/facts.ts';
import { answerFor, bandTold, canRead, targetOf, type Reads } from '../../bike/gauge/gauge.ts';
import { asWritten, readBand, readNumber, type Beside } from '../../bike/gauge/read-number.ts';
import { readSpringAt } from '../../bike/gauge/spring-at.ts';
import type { BikeSheet } from '../../bike/sheet.ts';
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
  /** of a sag: the pressure in the air spring when it was read, or the rate that stands on the coil */
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
  const held = at === undefined ? undefined : heldAt(at, gauge.reads, spring, beside);
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

/** @param spring as `sheetFact` has it */
function heldAt(text: string, reads: Reads, spring: string | undefined, beside: Beside) {
  if (reads !== 'sag')
    return { ok: false, why: 'Only a sag is read at a pressure.', remedy: 'Leave at: out.' } as const;
  const kind = spring === 'air' || spring === 'coil' ? spring : undefined;
  const held = readSpringAt(text, kind, { ...beside, like: undefined });
  return held.ok
    ? held
    : ({ ok: false, why: held.why, remedy: 'Write it with its unit, such as psi or lb/in.' } as const);
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
