/**
 * What a click does to each part of the damper's curve: the cross-talk of a pair of adjusters, how much of a fix one is
 * for the other's cause, and the smallest change a person can feel.
 */
import { partnerOf } from '../bike/circuits.ts';
import type { Circuit, End } from '../bike/sheet.ts';
import type { Bike, EndModel } from './bike/bike.ts';
import { damperForce } from './bike/damper.ts';
import { clicked } from './settings.ts';

/**
 * Shaft speeds at which the circuits are compared, m/s: weight shifts and corners; bumps and landings. Assumption: no
 * paper with shaft-speed distributions of mountain bikes could be read.
 */
export const GOVERNED = { low: 0.1, high: 1 } as const;
/** Also shown: where the two paths hand over. */
const SPEEDS = [0.05, 0.1, 0.3, 1, 2] as const;

/**
 * Smallest relative change of viscosity felt by forced choice, 0.19 (0.34 by adjustment): Jones, Hunter & Lafontaine,
 * Perception 26, 1997, 1571. Viscosity there is force over speed, as damping at one speed is here.
 */
export const WEBER = 0.19;

/** The wheel's speeds are the same at both ends; a shock moves slower than its wheel. */
function shaftSpeed(end: EndModel, wheelSpeed: number): number {
  const { c0, c1, c2, travel } = end.linkage;
  const middle = travel / 3;
  return wheelSpeed / (c0 + middle * (c1 + middle * c2));
}

function forceAt(end: EndModel, circuit: Circuit, wheelSpeed: number): number {
  const side = circuit.startsWith('rebound') ? end.rebound : end.compression;
  return damperForce(side, shaftSpeed(end, wheelSpeed));
}

export interface ClickEffect {
  readonly circuit: Circuit;
  /** clicks turned; + = open */
  readonly clicks: number;
  readonly at: readonly {
    /** m/s at the wheel */
    readonly speed: number;
    /** N at the shaft */
    readonly before: number;
    readonly after: number;
    /** after/before − 1 */
    readonly change: number;
  }[];
}

/** What clicks of one adjuster do to the force of its side at several wheel speeds, m/s. */
export function crossTalk(
  bike: Bike,
  end: End,
  circuit: Circuit,
  clicks = 1,
  speeds: readonly number[] = SPEEDS,
): ClickEffect {
  const before = bike.ends[end];
  const after = clicked(before, circuit, clicks);
  return {
    circuit,
    clicks,
    at: speeds.map((speed) => {
      const from = forceAt(before, circuit, speed);
      const to = forceAt(after, circuit, speed);
      return { speed, before: from, after: to, change: from === 0 ? 0 : to / from - 1 };
    }),
  };
}

/**
 * How much of a fix for its partner's cause a step of this adjuster is, 0..1: the damping it moves at the speed the
 * partner governs, against what a step of the partner moves there. A step is the smallest opening a person can feel.
 */
export function fixShare(bike: Bike, end: End, circuit: Circuit): number {
  const part = bike.ends[end];
  const partner = partnerOf(circuit);
  const speed = governedSpeed(partner);
  const step = (of: Circuit): number => Math.abs(logChange(part, of, feelableClicks(bike, end, of), speed));
  return Math.min(1, step(circuit) / step(partner));
}

/** Wheel speed that an adjuster is there for, m/s. */
export function governedSpeed(circuit: Circuit): number {
  return circuit.endsWith('low') ? GOVERNED.low : GOVERNED.high;
}

/** Natural logarithm of the force after ÷ before, at a wheel speed in m/s. */
function logChange(part: EndModel, circuit: Circuit, clicks: number, speed: number): number {
  return Math.log(forceAt(clicked(part, circuit, clicks), circuit, speed) / forceAt(part, circuit, speed));
}

/**
 * The smallest whole number of clicks whose change of damping at the adjuster's own speed a person can feel.
 * Weber fractions are of the larger over the smaller, so opening must leave 1/1.19 and closing make 1.19.
 */
export function feelableClicks(bike: Bike, end: End, circuit: Circuit, opens = true): number {
  const part = bike.ends[end];
  const needed = Math.log(1 + WEBER);
  const most = Math.max(1, part.knobs[circuit]?.range ?? 100);
  for (let clicks = 1; clicks < most; clicks++) {
    const change = logChange(part, circuit, opens ? clicks : -clicks, governedSpeed(circuit));
    if (Math.abs(change) >= needed) return clicks;
  }
  return most;
}
