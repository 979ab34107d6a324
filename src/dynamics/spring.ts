/** Springs at the shaft: force in N against shaft travel in m, from full extension. Rebound only works against these. */

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
  /** exponent n of p·Vⁿ = const: 1 slow (heat has time to leave) to 1.4 fast */
  readonly exponent: number;
}

interface CoilSpringModel {
  readonly kind: 'coil';
  /** N/m at the shaft */
  readonly rate: number;
  /** compression of the spring at full extension, m */
  readonly preload: number;
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

/** Positive chamber at full extension with its spacers in, m³. */
function positiveVolume(spring: AirSpringModel): number {
  return spring.volume - spring.spacers * spring.spacerVolume;
}

/** Absolute pressures of both chambers, Pa, at a shaft travel in m. */
function chamberPressures(
  spring: AirSpringModel,
  travel: number,
): { readonly positive: number; readonly negative: number } {
  const n = spring.exponent;
  const full = positiveVolume(spring);
  const positive = (at: number): number =>
    polytropicPressure(spring.pressure + ATMOSPHERE, full / (full - spring.area * at), n);
  const negativeAt = (at: number): number => spring.negativeVolume + spring.negativeArea * at;
  const port = spring.portTravel;
  return {
    positive: positive(travel),
    negative: polytropicPressure(positive(port), negativeAt(port) / negativeAt(travel), n),
  };
}

/** Spring force in N at a shaft travel in m: absolute pressure inside the gas law, gauge pressure for the force. */
export function springForce(spring: SpringModel, travel: number): number {
  if (spring.kind === 'coil') return spring.rate * (spring.preload + travel);
  const { positive, negative } = chamberPressures(spring, travel);
  return spring.area * (positive - ATMOSPHERE) - spring.negativeArea * (negative - ATMOSPHERE);
}

/** dF/dx in N/m: for each chamber n·p·A²/V with the absolute pressure. */
export function springStiffness(spring: SpringModel, travel: number): number {
  if (spring.kind === 'coil') return spring.rate;
  const { positive, negative } = chamberPressures(spring, travel);
  const volume = positiveVolume(spring) - spring.area * travel;
  const negativeVolume = spring.negativeVolume + spring.negativeArea * travel;
  return (
    spring.exponent *
    ((positive * spring.area ** 2) / volume + (negative * spring.negativeArea ** 2) / negativeVolume)
  );
}
