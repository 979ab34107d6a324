/** Values of options: read, or refused with what to write instead. */
import { InvalidArgumentError, Option } from 'commander';

export function formatOption(choices: readonly string[], fallback: string): Option {
  return new Option('-f, --format <form>', 'form of the output').choices([...choices]).default(fallback);
}

/** For an option that may come several times. */
export function collect(value: string, before: readonly string[]): readonly string[] {
  return [...before, value];
}

export function wholeNumber(text: string): number {
  const value = Number(text);
  if (!Number.isInteger(value) || value < 1)
    throw new InvalidArgumentError('Write a whole number from 1 up.');
  return value;
}

/** More threads than any machine at a track has help nobody. */
const MOST_JOBS = 64;

export function jobs(text: string): number {
  const value = wholeNumber(text);
  if (value > MOST_JOBS) throw new InvalidArgumentError(`Write at most ${MOST_JOBS}.`);
  return value;
}

export function degrees(text: string): number {
  const value = Number(text);
  if (text.trim() === '' || !(value >= -40 && value <= 150))
    throw new InvalidArgumentError('Write a number of degrees, such as 25.');
  return value;
}

export function probability(text: string): number {
  const value = Number(text);
  if (text.trim() === '' || !(value >= 0 && value <= 1))
    throw new InvalidArgumentError('Write a number from 0 to 1, such as 0.1.');
  return value;
}
