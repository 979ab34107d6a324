/** Values of options that are no texts: read, or refused with what to write instead. */
import type { Takes } from './takes.ts';

/** A value that cannot be read; the message says what to write instead. */
export class WrongValue extends Error {
  override readonly name = 'WrongValue';
}

function wholeNumber(text: string): number {
  const value = Number(text);
  if (!Number.isInteger(value) || value < 1) throw new WrongValue('Write a whole number from 1 up.');
  return value;
}

/** More threads than any machine at a track has help nobody. */
const MOST_JOBS = 64;

function readJobs(text: string): number {
  const value = wholeNumber(text);
  if (value > MOST_JOBS) throw new WrongValue(`Write at most ${MOST_JOBS}.`);
  return value;
}

function readDegrees(text: string): number {
  const value = Number(text);
  if (text.trim() === '' || !(value >= -40 && value <= 150))
    throw new WrongValue('Write a number of degrees, such as 25.');
  return value;
}

function readProbability(text: string): number {
  const value = Number(text);
  if (text.trim() === '' || !(value >= 0 && value <= 1))
    throw new WrongValue('Write a number from 0 to 1, such as 0.1.');
  return value;
}

export function count(value: string, about: string): Takes<number | undefined>;
export function count(value: string, about: string, fallback: number): Takes<number>;
export function count(value: string, about: string, fallback?: number) {
  return { value, about, parse: wholeNumber, ...(fallback === undefined ? {} : { fallback }) };
}

export function jobs(about: string): Takes<number> {
  return { value: 'n', about, parse: readJobs, fallback: 1 };
}

export function degrees(about: string): Takes<number | undefined> {
  return { value: 'degrees', about, parse: readDegrees };
}

export function probability(about: string, fallback: number): Takes<number> {
  return { value: 'p', about, parse: readProbability, fallback };
}
