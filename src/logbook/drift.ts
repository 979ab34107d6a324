/** Where a bike's sheet and its log disagree. */
import type { Stand } from '../bike/setting-values.ts';
import type { Standings } from './replay.ts';

export interface Drift {
  readonly setting: string;
  readonly sheet: Stand['value'];
  readonly log: Stand['value'];
  readonly unit: string;
  /** the entry of the log that has it so */
  readonly entry: number;
}

/**
 * What the sheet has elsewhere than the log: it was turned, or edited, without being written down. Readings have no
 * unit and are left out: sag is measured again after every change of the spring, and then only the sheet has it.
 */
export function driftOf(stands: readonly Stand[], logged: Standings): Drift[] {
  return stands.flatMap(({ setting, value, unit }): Drift[] => {
    const known = Object.hasOwn(logged, setting) ? logged[setting] : undefined;
    if (known === undefined || unit === undefined || known.unit !== unit || known.value === value) return [];
    return [{ setting, sheet: value, log: known.value, unit, entry: known.entry }];
  });
}
