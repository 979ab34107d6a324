/** The dampers of an end out of its part of the sheet: usual ones, and either where its knobs stand. */
import { CIRCUITS, type Circuit, type EndSheet } from '../../bike/sheet.ts';
import { clickRatio, DAMPING, MIDDLE } from '../defaults.ts';
import type { FittedDamper } from '../fit.ts';
import { rangeOf } from '../usual-bikes.ts';
import type { EndModel, Knob } from './bike.ts';
import { circuitThrough, turned, type DamperCircuit } from './damper.ts';

/** What a damper, a bumper and seals are made for: an average rider at the usual sag, whoever rides it. */
export interface AverageEnd {
  /** at that sag: wheel travel per shaft travel; force at the shaft, N; critical damping at the wheel, N·s/m */
  readonly ratio: number;
  readonly shaftLoad: number;
  readonly critical: number;
}

/** Both circuits in the middle of their range. */
export function usualDampers({ ratio, critical }: AverageEnd): {
  readonly compression: DamperCircuit;
  readonly rebound: DamperCircuit;
} {
  const force = (share: number, wheelSpeed: number): number => share * critical * wheelSpeed * ratio;
  const through = (shares: { readonly slow: number; readonly fast: number }): DamperCircuit => {
    const slow = { speed: DAMPING.slow / ratio, force: force(shares.slow, DAMPING.slow) };
    const fast = { speed: DAMPING.fast / ratio, force: force(shares.fast, DAMPING.fast) };
    return circuitThrough(slow, fast, DAMPING.opensAt * slow.force)!;
  };
  return { compression: through(DAMPING.compression), rebound: through(DAMPING.rebound) };
}

export function knobsOf(part: EndSheet, fit: FittedDamper | undefined): EndModel['knobs'] {
  const knobs: Partial<Record<Circuit, Knob>> = {};
  for (const circuit of CIRCUITS) {
    const sheet = part.adjusters[circuit];
    if (sheet === undefined) continue;
    const range = rangeOf(circuit, sheet);
    knobs[circuit] = {
      range,
      now: sheet.now,
      ratio: fit?.ratios[circuit] ?? sheet.ratio ?? clickRatio(circuit, range),
    };
  }
  return knobs;
}

/** Where an average rider has a knob: the maker's starting clicks, else the middle of the range. 0 without a knob. */
export function usualClicks(part: EndSheet, path: Circuit): number {
  const knob = part.adjusters[path];
  return knob === undefined ? 0 : (knob.maker ?? Math.round(MIDDLE * rangeOf(path, knob)));
}

/**
 * The circuit where its knobs stand now. Defaults are worth what the maker's starting clicks (or the middle of the
 * range) are worth; a fit is given at 0 clicks.
 */
export function standing(
  circuit: DamperCircuit,
  part: EndSheet,
  knobs: EndModel['knobs'],
  side: 'rebound' | 'compression',
  fitted: boolean,
): DamperCircuit {
  const factor = (path: Circuit): number => {
    const knob = knobs[path];
    if (knob === undefined) return 1;
    const usual = usualClicks(part, path);
    return knob.ratio ** ((knob.now ?? usual) - (fitted ? 0 : usual));
  };
  return turned(circuit, factor(`${side}.low`), factor(`${side}.high`));
}
