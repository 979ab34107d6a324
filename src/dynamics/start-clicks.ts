/** The clicks at which an end is damped as it should be: from its own curve where there is one, else from a usual damper. */
import { defined } from '../bike/defined.ts';
import { CIRCUITS, type BikeSheet, type Circuit, type End, type EndSheet } from '../bike/sheet.ts';
import { GRAVITY, type Bike } from './bike.ts';
import { WEBER } from './cross-talk.ts';
import { damperForce, turned, type DamperCircuit } from './damper.ts';
import { clickRatio, DAMPING, MIDDLE, RIDER, rangeOf } from './defaults.ts';
import type { FittedDamper } from './fit.ts';
import { fullStroke, ratioAt, wheelTravel, type Linkage } from './linkage.ts';
import { springStiffness } from './spring.ts';
import type { Basis, SpringStart } from './start-spring.ts';

export interface ClickStart {
  readonly circuit: Circuit;
  readonly range: number;
  /** clicks from closed */
  readonly model: number;
  readonly maker?: number;
  readonly begin: number;
  readonly now?: number;
  /** `measured`: from this damper's own curve */
  readonly basis: Basis;
  /** the stop keeps it from going further that way */
  readonly limited?: 'closed' | 'open';
}

/** Shares of critical damping that a measured damper comes to at the model's clicks. */
export interface DampingReached {
  readonly side: Side;
  readonly slow: number;
  readonly fast: number;
}

type Side = 'rebound' | 'compression';
const SIDES: readonly Side[] = ['rebound', 'compression'];

/** How far from the middle of its range a knob goes as lightly as damping goes off by what can just be felt. Judgement. */
const FROM_MIDDLE = 0.25;

/** Critical damping of the mass on an end at its sag, N·s/m at the wheel. */
export function criticalOf(bike: Bike, which: End, { sag, load }: SpringStart): number {
  const { spring, linkage } = bike.ends[which];
  const shaft = sag * fullStroke(linkage);
  const stiffness = springStiffness(spring, shaft) / ratioAtSag(linkage, sag) ** 2;
  return 2 * Math.sqrt((stiffness * load) / GRAVITY);
}

function ratioAtSag(linkage: Linkage, sag: number): number {
  return ratioAt(linkage, wheelTravel(linkage, sag * fullStroke(linkage)));
}

/**
 * @param bike the model of the sheet at the sag wanted
 * @param critical N·s/m at the wheel; @param sag share of the stroke; @param fit of this end's measured curve
 */
export function clickStarts(
  sheet: BikeSheet,
  bike: Bike,
  which: End,
  critical: number,
  sag: number,
  fit: FittedDamper | undefined,
): { readonly clicks: readonly ClickStart[]; readonly reached: readonly DampingReached[] } {
  const part = sheet.ends[which];
  const ratio = ratioAtSag(bike.ends[which].linkage, sag);
  const perClick = (circuit: Circuit): number =>
    fit?.ratios[circuit] ??
    part.adjusters[circuit]?.ratio ??
    clickRatio(circuit, part.adjusters[circuit]?.range ?? 1);
  const measured = new Map<Circuit, number>();
  const reached: DampingReached[] = [];
  for (const side of SIDES) {
    const circuit = fit?.[side];
    if (circuit === undefined) continue;
    const found = onCurve(circuit, part, side, perClick, critical, ratio);
    measured.set(`${side}.low`, found.low).set(`${side}.high`, found.high);
    reached.push({ side, slow: found.slow, fast: found.fast });
  }
  const factor = massFactor(sheet, bike);
  const clicks = CIRCUITS.flatMap((circuit): ClickStart[] => {
    const knob = part.adjusters[circuit];
    if (knob === undefined) return [];
    const { maker, now } = knob;
    const range = rangeOf(circuit, knob);
    const speed = circuit.endsWith('low') ? 'low' : 'high';
    const usual = middle(range) + Math.round(clicksForMass(speed, factor, perClick(circuit)));
    const wanted = measured.get(circuit) ?? usual;
    const model = Math.min(range, Math.max(0, wanted));
    return [
      defined<ClickStart>({
        circuit,
        range,
        model,
        maker,
        begin: maker ?? model,
        now,
        basis: measured.has(circuit) ? 'measured' : 'assumption',
        limited: wanted < 0 ? 'closed' : wanted > range ? 'open' : undefined,
      }),
    ];
  });
  return { clicks, reached };
}

/**
 * The pair of clicks at which a measured damper comes nearest to the damping wanted at both speeds. Two clicks fit two
 * speeds almost anywhere, so leaving the middle of a range costs something too.
 * @param closed the damper at 0 clicks
 */
function onCurve(
  closed: DamperCircuit,
  part: EndSheet,
  side: Side,
  perClick: (circuit: Circuit) => number,
  critical: number,
  ratio: number,
): { low: number; high: number; slow: number; fast: number } {
  const range = (speed: 'low' | 'high'): number => part.adjusters[`${side}.${speed}`]?.range ?? 0;
  const share = (low: number, high: number, wheel: number): number => {
    const circuit = turned(closed, perClick(`${side}.low`) ** low, perClick(`${side}.high`) ** high);
    return damperForce(circuit, wheel / ratio) / ratio / (critical * wheel);
  };
  const off = (clicks: number, of: number): number =>
    of === 0 ? 0 : ((clicks - MIDDLE * of) / of / FROM_MIDDLE) ** 2;
  const wanted = DAMPING[side];
  let best = { low: 0, high: 0, slow: 0, fast: 0, cost: Infinity };
  for (let low = 0; low <= range('low'); low++)
    for (let high = 0; high <= range('high'); high++) {
      const slow = share(low, high, DAMPING.slow);
      const fast = share(low, high, DAMPING.fast);
      const felt = [slow / wanted.slow, fast / wanted.fast].map(
        (x) => (Math.log(x) / Math.log(1 + WEBER)) ** 2,
      );
      const cost = felt[0]! + felt[1]! + off(low, range('low')) + off(high, range('high'));
      if (cost < best.cost) best = { low, high, slow, fast, cost };
    }
  return best;
}

function middle(range: number): number {
  return Math.round(MIDDLE * range);
}

/** Sprung mass against that with a usual rider on the same bike. */
function massFactor(sheet: BikeSheet, bike: Bike): number {
  return bike.body.mass / (bike.body.mass + RIDER.mass - (sheet.riderMass ?? RIDER.mass));
}

/**
 * Clicks, not rounded, from where a usual rider's damping is right to where it is for another mass: + is more open.
 *
 * At the same sag the stiffness goes with the load, so critical damping, 2√(k·m), goes with the mass: every force must
 * become r times as large. In v = α·√F + γ·F^1.5 that is α/√r and γ/r^1.5.
 * @param factor r; @param perClick what a click multiplies α (low) or γ (high) by
 */
export function clicksForMass(speed: 'low' | 'high', factor: number, perClick: number): number {
  return (-(speed === 'low' ? 0.5 : 1.5) * Math.log(factor)) / Math.log(perClick);
}
