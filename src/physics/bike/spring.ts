/**
 * Springs at the shaft: force in N against shaft travel in m, from full extension. Rebound only works against these.
 *
 * An air spring settles to its sag slowly, heat comes and goes, and the gas stays at its temperature: p·V = const. What a
 * ride then does to it is quick, keeps its heat, and follows p·Vⁿ = const about that point. Every law here therefore
 * takes `rest`: the shaft travel at which the gas last had time; left out, the travel itself (standing still there).
 */
import { springPush, springSlope } from '../machine/loops/elastic.ts';

export interface AirSpringModel {
  readonly kind: 'air';
  /** gauge pressure of the positive chamber at full extension, Pa */
  readonly pressure: number;
  /** piston area toward the positive chamber, and toward the negative one, m² */
  readonly area: number;
  readonly negativeArea: number;
  /** positive chamber at full extension without volume spacers, m³ */
  readonly volume: number;
  /** volume of one spacer, m³, how many are fitted, how many fit at most */
  readonly spacerVolume: number;
  readonly spacers: number;
  readonly spacersMax: number;
  /** negative chamber at full extension, m³ */
  readonly negativeVolume: number;
  /** shaft travel at which the port joins the two chambers, m */
  readonly portTravel: number;
  /** exponent n of p·Vⁿ = const for quick movements: up to 1.4 where no heat leaves */
  readonly exponent: number;
}

export interface CoilSpringModel {
  readonly kind: 'coil';
  /** N/m at the shaft */
  readonly rate: number;
  /** compression of the spring at full extension, m */
  readonly preload: number;
  /** how far a turn of the collar moves it, m */
  readonly pitch: number;
}

export type SpringModel = AirSpringModel | CoilSpringModel;

/** Standard atmosphere, Pa, exactly (10th general conference on weights and measures, 1954). */
export const ATMOSPHERE = 101_325;

/** Volumes of both chambers at a shaft travel, m³. */
function positiveVolume(spring: AirSpringModel, travel: number): number {
  return spring.volume - spring.spacers * spring.spacerVolume - spring.area * travel;
}

function negativeVolume(spring: AirSpringModel, travel: number): number {
  return spring.negativeVolume + spring.negativeArea * travel;
}

/** The gas come to rest at a shaft travel in m: absolute pressures, Pa, and volumes, m³. The chambers part where the port closes. */
function gasAt(
  spring: AirSpringModel,
  rest: number,
): {
  readonly positive: number;
  readonly positiveVolume: number;
  readonly negative: number;
  readonly negativeVolume: number;
} {
  const slow = (at: number): number =>
    ((spring.pressure + ATMOSPHERE) * positiveVolume(spring, 0)) / positiveVolume(spring, at);
  const port = spring.portTravel;
  const atRest = negativeVolume(spring, rest);
  return {
    positive: slow(rest),
    positiveVolume: positiveVolume(spring, rest),
    negative: (slow(port) * negativeVolume(spring, port)) / atRest,
    negativeVolume: atRest,
  };
}

/** What the loops need of a spring whose gas came to rest at a shaft travel in m. */
export function springNumbers(spring: SpringModel, rest: number): Float64Array {
  if (spring.kind === 'coil') return Float64Array.of(0, spring.rate, spring.preload);
  const gas = gasAt(spring, rest);
  return Float64Array.of(
    1,
    spring.area,
    spring.negativeArea,
    spring.volume - spring.spacers * spring.spacerVolume,
    spring.negativeVolume,
    spring.exponent,
    gas.positive,
    gas.positiveVolume,
    gas.negative,
    gas.negativeVolume,
    ATMOSPHERE,
  );
}

/** Spring force in N at a shaft travel in m. */
export function springForce(spring: SpringModel, travel: number, rest = travel): number {
  return springPush(springNumbers(spring, rest), travel);
}

/** dF/dx of a quick movement in N/m. */
export function springStiffness(spring: SpringModel, travel: number, rest = travel): number {
  return springSlope(springNumbers(spring, rest), travel);
}
