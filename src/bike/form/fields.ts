/** Reading fields of plain data, collecting every problem with its path instead of stopping at the first. */
import type { PathProblem } from '../../form/problem.ts';
import { didYouMean } from '../../form/suggest.ts';
import type { Range } from './limits.ts';
import type { UnitChoice } from '../sheet.ts';
import { inPercent, inUnit, readQuantity, readShare, shown, type Dimension } from '../units.ts';

export type Path = readonly (string | number)[];

/** Unknown keys of one map that are told one by one. */
const MOST_TOLD = 50;

export class Fields {
  readonly problems: PathProblem[];
  readonly path: Path;
  /** false when there was no map to read: the problem is told, and the fields in it are not worth another */
  readonly isMap: boolean;
  private readonly raw: Readonly<Record<string, unknown>>;

  constructor(raw: unknown, path: Path, keys: readonly string[], problems: PathProblem[]) {
    this.path = path;
    this.problems = problems;
    this.isMap = typeof raw === 'object' && raw !== null && !Array.isArray(raw);
    this.raw = this.isMap ? (raw as Record<string, unknown>) : {};
    if (!this.isMap)
      this.wrong(
        [],
        `${this.name} must be a map, found ${found(raw)}.`,
        `Write its keys below it: ${keys.join(', ')}.`,
      );
    const known = new Set(keys);
    const others = Object.keys(this.raw).filter((key) => !known.has(key));
    for (const key of others.slice(0, MOST_TOLD))
      this.wrong(
        [key],
        `${this.name} has no key ${shown(key)}.`,
        didYouMean(key, keys) || `Keys: ${keys.join(', ')}.`,
      );
    if (others.length > MOST_TOLD)
      this.wrong(
        [],
        `${this.name} has ${others.length - MOST_TOLD} more keys that it should not have.`,
        'Check that it is the right file.',
      );
  }

  /** What a message calls this map. */
  get name(): string {
    return this.path.length === 0
      ? 'A bike sheet'
      : this.path.map((p) => (typeof p === 'number' ? p + 1 : p)).join(' › ');
  }

  /** The value of a key; an empty one (`now:` with nothing behind it) counts as absent. */
  get(key: string): unknown {
    return Object.hasOwn(this.raw, key) ? (this.raw[key] ?? undefined) : undefined;
  }

  wrong(at: Path, message: string, remedy: string, severity: PathProblem['severity'] = 'error'): void {
    this.problems.push({ path: [...this.path, ...at], severity, message, remedy });
  }

  /** Tells when a key is absent. */
  need(key: string, remedy: string): void {
    if (this.get(key) === undefined) this.wrong([], `${this.name}: the key ${key} is missing.`, remedy);
  }

  /** A map below this one; undefined when it is absent, or is no map (which is told). */
  below(key: string, keys: readonly string[]): Fields | undefined {
    const raw = this.get(key);
    if (raw === undefined) return undefined;
    const fields = new Fields(raw, [...this.path, key], keys, this.problems);
    return fields.isMap ? fields : undefined;
  }

  text(key: string, longest = 200): string | undefined {
    const value = this.get(key);
    if (value === undefined) return undefined;
    const text = typeof value === 'number' ? String(value) : value;
    if (typeof text !== 'string') {
      this.wrong([key], `${key} must be a text, found ${found(value)}.`, 'Put it between quotes.');
    } else if (text.trim() === '' || text.length > longest) {
      this.wrong([key], `${key} has ${text.length} characters.`, `Write 1 to ${longest}.`);
    } else if (/[^\P{Cc}\n\t]/u.test(text)) {
      this.wrong([key], `${key} holds control characters: ${shown(text)}.`, 'Type it again as plain text.');
    } else return text;
    return undefined;
  }

  choice<T extends string>(key: string, choices: readonly T[]): T | undefined {
    const value = this.get(key);
    if (value === undefined || choices.includes(value as T)) return value as T | undefined;
    this.wrong(
      [key],
      `${key} must be ${choices.join(', ')}; found ${found(value)}.`,
      (typeof value === 'string' && didYouMean(value, choices)) || 'Choose one of these.',
    );
    return undefined;
  }

  /** A plain number in a range. */
  number(key: string, [least, most]: Range, whole = false): number | undefined {
    const value = this.get(key);
    if (value === undefined) return undefined;
    if (typeof value !== 'number' || !Number.isFinite(value) || (whole && !Number.isInteger(value))) {
      this.wrong(
        [key],
        `${key} must be a ${whole ? 'whole ' : ''}number, found ${found(value)}.`,
        `Write a number from ${least} to ${most}.`,
      );
      return undefined;
    }
    if (value >= least && value <= most) return value;
    this.beyond(key, value, least, most, '');
    return undefined;
  }

  /** A quantity with a unit; SI out. The range is in SI too. */
  quantity<D extends Dimension>(
    key: string,
    dimension: D,
    units: UnitChoice,
    range: Range,
  ): number | undefined {
    const value = this.get(key);
    if (value === undefined) return undefined;
    const unit = units[dimension];
    const read = readQuantity(value, dimension, unit);
    // Compared as written, so that a value at the very limit is still good after it was rounded and written.
    const [least, most] = [inUnit(range[0], unit), inUnit(range[1], unit)];
    if (!read.ok)
      this.wrong([key], `${key}: ${read.why}.`, `Write a number from ${least} to ${most} ${unit}.`);
    else if (inUnit(read.value, unit) >= least && inUnit(read.value, unit) <= most) return read.value;
    else this.beyond(key, value, least, most, ` ${unit}`);
    return undefined;
  }

  /** A share of the travel: `28%` or 0.28; a fraction out. */
  share(key: string, [least, most]: Range): number | undefined {
    const value = this.get(key);
    if (value === undefined) return undefined;
    const read = readShare(value);
    if (!read.ok) this.wrong([key], `${key}: ${read.why}.`, 'Write it like 28%.');
    else if (inPercent(read.value) >= 100 * least && inPercent(read.value) <= 100 * most) return read.value;
    else this.beyond(key, value, 100 * least, 100 * most, ' %');
    return undefined;
  }

  private beyond(key: string, value: unknown, least: number, most: number, unit: string): void {
    this.wrong(
      [key],
      `${key} is ${found(value)}; no bike goes outside ${least} to ${most}${unit}.`,
      'Check the number and its unit.',
    );
  }
}

function found(value: unknown): string {
  if (value === undefined || value === null) return 'nothing';
  if (Array.isArray(value)) return 'a list';
  return typeof value === 'object' ? 'a map' : shown(String(value));
}
