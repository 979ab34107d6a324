/** The clicks at which an end is damped as it should be: from its own curve where there is one, else from a usual damper. */
import { defined } from '../form/plain-data.ts';
import { CIRCUITS, type BikeSheet, type Circuit, type End, type EndSheet } from '../bike/sheet.ts';
import { GRAVITY, type Bike } from './bike/bike.ts';
import { WEBER } from './cross-talk.ts';
import { damperForce, turned, type DamperCircuit } from './bike/damper.ts';
import { clickRatio, DAMPING, MIDDLE } from './defaults.ts';
import { rangeOf } from './usual-bikes.ts';
import { averageEnd } from './bike/end-from-sheet.ts';
import { usualClicks, usualDampers } from './bike/dampers-from-sheet.ts';
import type { FittedDamper } from './fit.ts';
import { fullStroke, ratioAt, wheelTravel, type Linkage } from './bike/linkage.ts';
import { springStiffness } from './bike/spring.ts';
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
  const { linkage } = bike.ends[which];
  const usual = usualDampers(averageEnd(sheet, which, linkage));
  const found = SIDES.map((side) => {
    const measured = fit?.[side];
    const damper: Damper = {
      side,
      part,
      circuit: measured ?? usual[side],
      at: (path) => (measured === undefined ? usualClicks(part, path) : 0),
      perClick: (path) => fit?.ratios[path] ?? perClick(part, path),
    };
    return { measured: measured !== undefined, ...nearest(damper, critical, ratioAtSag(linkage, sag)) };
  });
  const clicks = CIRCUITS.flatMap((circuit): ClickStart[] => {
    const knob = part.adjusters[circuit];
    if (knob === undefined) return [];
    const { side, measured, ...best } = found.find((f) => circuit.startsWith(f.side))!;
    const low = circuit.endsWith('low');
    const [model, speed] = low ? [best.low, 'slow' as const] : [best.high, 'fast' as const];
    const range = rangeOf(circuit, knob);
    const off = best[speed] / DAMPING[side][speed];
    return [
      defined<ClickStart>({
        circuit,
        range,
        model,
        maker: knob.maker,
        begin: knob.maker ?? model,
        now: knob.now,
        basis: measured ? 'measured' : 'assumption',
        limited:
          model === 0 && off < 1 / (1 + WEBER)
            ? 'closed'
            : model === range && off > 1 + WEBER
              ? 'open'
              : undefined,
      }),
    ];
  });
  const reached = found.filter((f) => f.measured).map(({ side, slow, fast }) => ({ side, slow, fast }));
  return { clicks, reached };
}

function perClick(part: EndSheet, path: Circuit): number {
  const knob = part.adjusters[path];
  return knob === undefined ? 1 : (knob.ratio ?? clickRatio(path, rangeOf(path, knob)));
}

/** A damper of an end with where its knobs stood when it was as it is here. */
interface Damper {
  readonly side: Side;
  readonly part: EndSheet;
  readonly circuit: DamperCircuit;
  at(path: Circuit): number;
  perClick(path: Circuit): number;
}

/**
 * The pair of clicks at which a damper comes nearest to the damping wanted at both speeds. Two clicks fit two speeds
 * almost anywhere, so leaving the middle of a range costs something too.
 */
function nearest(
  { side, part, circuit, at, perClick: ratioOf }: Damper,
  critical: number,
  ratio: number,
): { side: Side; low: number; high: number; slow: number; fast: number } {
  const [lowPath, highPath] = [`${side}.low`, `${side}.high`] as const;
  const range = (path: Circuit): number => {
    const knob = part.adjusters[path];
    return knob === undefined ? 0 : rangeOf(path, knob);
  };
  const share = (low: number, high: number, wheel: number): number => {
    const moved = turned(
      circuit,
      ratioOf(lowPath) ** (low - at(lowPath)),
      ratioOf(highPath) ** (high - at(highPath)),
    );
    return damperForce(moved, wheel / ratio) / ratio / (critical * wheel);
  };
  const off = (clicks: number, of: number): number =>
    of === 0 ? 0 : ((clicks - MIDDLE * of) / of / FROM_MIDDLE) ** 2;
  const wanted = DAMPING[side];
  const felt = (reached: number, aim: number): number => (Math.log(reached / aim) / Math.log(1 + WEBER)) ** 2;
  let best = { side, low: 0, high: 0, slow: 0, fast: 0 };
  let least = Infinity;
  for (let low = 0; low <= range(lowPath); low++)
    for (let high = 0; high <= range(highPath); high++) {
      const slow = share(low, high, DAMPING.slow);
      const fast = share(low, high, DAMPING.fast);
      const cost =
        felt(slow, wanted.slow) +
        felt(fast, wanted.fast) +
        off(low, range(lowPath)) +
        off(high, range(highPath));
      if (cost < least) {
        least = cost;
        best = { side, low, high, slow, fast };
      }
    }
  return best;
}
