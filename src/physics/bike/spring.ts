/**
 * Springs at the shaft: force in N against shaft travel in m, from full extension. Rebound only works against these.
 *
 * An air spring settles to its sag slowly, heat comes and goes, and the gas stays at its temperature: p·V = const. What a
 * ride then does to it is quick, keeps its heat, and follows p·Vⁿ = const about that point. Every law here therefore
 * takes `rest`: the shaft travel at which the gas last had time; left out, the travel itself (standing still there).
 */

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

/**
 * Absolute pressure of a gas after its volume changed: p·Vⁿ = const.
 * @param pressure absolute, Pa
 * @param ratio volume before ÷ volume after
 */
export function polytropicPressure(pressure: number, ratio: number, exponent: number): number {
  return pressure * ratio ** exponent;
}

/** Volumes of both chambers at a shaft travel, m³. */
function positiveVolume(spring: AirSpringModel, travel: number): number {
  return spring.volume - spring.spacers * spring.spacerVolume - spring.area * travel;
}

function negativeVolume(spring: AirSpringModel, travel: number): number {
  return spring.negativeVolume + spring.negativeArea * travel;
}

/** Absolute pressures of both chambers, Pa, at a shaft travel in m. The chambers part where the port closes. */
function chamberPressures(
  spring: AirSpringModel,
  travel: number,
  rest: number,
): { readonly positive: number; readonly negative: number } {
  const slow = (at: number): number =>
    ((spring.pressure + ATMOSPHERE) * positiveVolume(spring, 0)) / positiveVolume(spring, at);
  const port = spring.portTravel;
  const negative = (slow(port) * negativeVolume(spring, port)) / negativeVolume(spring, rest);
  if (travel === rest) return { positive: slow(rest), negative };
  const n = spring.exponent;
  return {
    positive: polytropicPressure(
      slow(rest),
      positiveVolume(spring, rest) / positiveVolume(spring, travel),
      n,
    ),
    negative: polytropicPressure(negative, negativeVolume(spring, rest) / negativeVolume(spring, travel), n),
  };
}

/** Spring force in N at a shaft travel in m: absolute pressure inside the gas law, gauge pressure for the force. */
export function springForce(spring: SpringModel, travel: number, rest = travel): number {
  if (spring.kind === 'coil') return spring.rate * (spring.preload + travel);
  const { positive, negative } = chamberPressures(spring, travel, rest);
  return spring.area * (positive - ATMOSPHERE) - spring.negativeArea * (negative - ATMOSPHERE);
}

/** dF/dx of a quick movement in N/m: for each chamber n·p·A²/V with the absolute pressure. */
export function springStiffness(spring: SpringModel, travel: number, rest = travel): number {
  if (spring.kind === 'coil') return spring.rate;
  const { positive, negative } = chamberPressures(spring, travel, rest);
  return (
    spring.exponent *
    ((positive * spring.area ** 2) / positiveVolume(spring, travel) +
      (negative * spring.negativeArea ** 2) / negativeVolume(spring, travel))
  );
}
