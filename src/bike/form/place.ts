/** A map of a bike sheet that is being made sense of: where it stands, and what is wrong with it, with its path. */
import { printable } from '../../form/text.ts';
import type { PathProblem } from '../../form/problem.ts';
import type { Range } from './limits.ts';
import type { UnitChoice } from '../sheet.ts';
import { inPercent, inUnit, readQuantity, readShare, type Dimension } from '../units.ts';

export class Place {
  readonly path: PathProblem['path'];
  readonly units: UnitChoice;
  readonly problems: PathProblem[];

  constructor(path: PathProblem['path'], units: UnitChoice, problems: PathProblem[]) {
    this.path = path;
    this.units = units;
    this.problems = problems;
  }

  below(...steps: PathProblem['path']): Place {
    return new Place([...this.path, ...steps], this.units, this.problems);
  }

  /** What a message calls this map. */
  get name(): string {
    return this.path.length === 0
      ? 'A bike sheet'
      : this.path.map((step) => (typeof step === 'number' ? `entry ${step + 1}` : step)).join(' › ');
  }

  wrong(
    at: PathProblem['path'],
    message: string,
    remedy: string,
    severity: PathProblem['severity'] = 'error',
  ): void {
    this.problems.push({
      path: [...this.path, ...at],
      severity,
      message: `${this.name}: ${message}`,
      remedy,
    });
  }

  missing(key: string, remedy: string): void {
    this.wrong([], `${key} is missing.`, remedy);
  }

  /** A quantity with a unit; SI out. The range is in SI too. */
  quantity(key: string, value: unknown, dimension: Dimension, range: Range): number | undefined {
    if (value === undefined || value === null) return undefined;
    const unit = this.units[dimension];
    const read = readQuantity(value, dimension, unit);
    // Compared as written, so that a value at the very limit is still good after it was rounded and written.
    const [least, most] = [inUnit(range[0], unit), inUnit(range[1], unit)];
    if (!read.ok) this.bad(key, `: ${read.why}`, `Write a number from ${least} to ${most} ${unit}.`);
    else if (inUnit(read.value, unit) >= least && inUnit(read.value, unit) <= most) return read.value;
    else this.beyond(key, value, least, most, ` ${unit}`);
    return undefined;
  }

  /** A share of the travel, at the rear of the shock's stroke: `28%` or 0.28; a fraction out. */
  share(key: string, value: unknown, [least, most]: Range): number | undefined {
    if (value === undefined || value === null) return undefined;
    const read = readShare(value);
    if (!read.ok)
      this.bad(
        key,
        `: ${read.why}`,
        "Write it as a share of the travel (at the rear, of the shock's stroke), like 28%.",
      );
    else if (inPercent(read.value) >= 100 * least && inPercent(read.value) <= 100 * most) return read.value;
    else this.beyond(key, value, 100 * least, 100 * most, ' %');
    return undefined;
  }

  private beyond(key: string, value: unknown, least: number, most: number, unit: string): void {
    this.bad(
      key,
      ` is ${printable(String(value))}; no bike goes outside ${least} to ${most}${unit}`,
      'Check the number and its unit.',
    );
  }

  private bad(key: string, what: string, remedy: string): void {
    const { name, path } = this.below(key);
    this.problems.push({ path, severity: 'error', message: `${name}${what}.`, remedy });
  }
}

export function textOf(value: string | number | null | undefined): string | undefined {
  return value === null || value === undefined ? undefined : String(value);
}
