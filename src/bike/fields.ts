/** Reading fields of plain data, collecting every problem with its path instead of stopping at the first. */
import { didYouMean } from '../rulebase/suggest.ts';
import { readQuantity, readShare, type Dimension } from './units.ts';

export interface SheetProblem {
  readonly path: readonly (string | number)[];
  readonly severity: 'error' | 'warning';
  readonly message: string;
  readonly remedy: string;
}

export type Path = readonly (string | number)[];

export class Fields {
  readonly problems: SheetProblem[];
  readonly path: Path;
  private readonly raw: Readonly<Record<string, unknown>>;

  constructor(raw: unknown, path: Path, keys: readonly string[], problems: SheetProblem[]) {
    this.path = path;
    this.problems = problems;
    if (typeof raw !== 'object' || raw === null || Array.isArray(raw)) {
      this.raw = {};
      this.wrong(
        [],
        `${name(path)} must be a map, found ${kind(raw)}.`,
        `Write its keys below it: ${keys.join(', ')}.`,
      );
      return;
    }
    this.raw = raw as Record<string, unknown>;
    for (const key of Object.keys(this.raw)) {
      if (!keys.includes(key))
        this.wrong(
          [key],
          `${name(path)} has no key ${key.slice(0, 40)}.`,
          didYouMean(key, keys) || `Keys: ${keys.join(', ')}.`,
        );
    }
  }

  get(key: string): unknown {
    return this.raw[key] ?? undefined;
  }

  wrong(at: Path, message: string, remedy: string, severity: SheetProblem['severity'] = 'error'): void {
    this.problems.push({ path: [...this.path, ...at], severity, message, remedy });
  }

  text(key: string): string | undefined {
    const value = this.get(key);
    if (value === undefined || typeof value === 'string') return value;
    if (typeof value === 'number') return String(value);
    this.wrong([key], `${key} must be a text, found ${kind(value)}.`, 'Put it between quotes.');
    return undefined;
  }

  choice<T extends string>(key: string, choices: readonly T[]): T | undefined {
    const value = this.get(key);
    if (value === undefined || choices.includes(value as T)) return value as T | undefined;
    this.wrong(
      [key],
      `${key} must be ${choices.join(', ')}; found ${kind(value)}.`,
      didYouMean(String(value), choices) || 'Choose one of these.',
    );
    return undefined;
  }

  /** A plain number in a range. */
  number(key: string, least: number, most: number, whole = false): number | undefined {
    const value = this.get(key);
    if (value === undefined) return undefined;
    if (typeof value !== 'number' || !Number.isFinite(value) || (whole && !Number.isInteger(value))) {
      this.wrong(
        [key],
        `${key} must be a ${whole ? 'whole ' : ''}number, found ${kind(value)}.`,
        `Write a number from ${least} to ${most}.`,
      );
      return undefined;
    }
    return this.within(key, value, least, most, String);
  }

  /** A quantity with a unit; SI out. The range is in SI too. */
  quantity(key: string, dimension: Dimension, unit: string, least: number, most: number): number | undefined {
    const value = this.get(key);
    if (value === undefined) return undefined;
    const read = readQuantity(value, dimension, unit);
    if (!read.ok) {
      this.wrong([key], `${key}: ${read.why}.`, `Write it like 80 ${unit}.`);
      return undefined;
    }
    return this.within(key, read.value, least, most, () => String(value));
  }

  share(key: string, most: number): number | undefined {
    const value = this.get(key);
    if (value === undefined) return undefined;
    const read = readShare(value);
    if (!read.ok) {
      this.wrong([key], `${key}: ${read.why}.`, 'Write it like 28%.');
      return undefined;
    }
    return this.within(key, read.value, 0, most, () => String(value));
  }

  private within(
    key: string,
    value: number,
    least: number,
    most: number,
    shown: (v: number) => string,
  ): number | undefined {
    if (value >= least && value <= most) return value;
    this.wrong([key], `${key} is ${shown(value)}, which no bike has.`, 'Check the number and its unit.');
    return undefined;
  }
}

function name(path: Path): string {
  return path.length === 0 ? 'A bike sheet' : path.join(' › ');
}

function kind(value: unknown): string {
  if (value === undefined || value === null) return 'nothing';
  if (Array.isArray(value)) return 'a list';
  return typeof value === 'object' ? 'a map' : String(value).slice(0, 40);
}
