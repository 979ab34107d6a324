/**
 * Cold and hot oil. A shim stack and a sharp-edged orifice hardly feel viscosity; the low-speed passage is a short
 * tube, and does. All relations here are from memory.
 */
import { ENDS } from '../bike/sheet.ts';
import type { Bike, EndModel } from './bike/bike.ts';
import { turned } from './bike/damper.ts';
import { withEnd } from './settings.ts';

/** Oil temperature at which the bike's damping is what the clicks say, °C; assumption. */
export const REFERENCE_CELSIUS = 25;

/** Kinematic viscosity of a light suspension oil, mm²/s at °C; assumption: between what makers print for the thinnest. */
const THIN = { celsius: 40, viscosity: 15 } as const;
const HOT = { celsius: 100, viscosity: 4.2 } as const;

/**
 * Kinematic viscosity in mm²/s by Walther's equation, log10 log10(ν + 0.7) = A − B·log10 T (T in K), the form of ASTM
 * D341 (from memory).
 */
export function viscosity(celsius: number): number {
  const slope =
    (doubleLog(HOT.viscosity) - doubleLog(THIN.viscosity)) /
    (logKelvin(HOT.celsius) - logKelvin(THIN.celsius));
  const y = doubleLog(THIN.viscosity) + slope * (logKelvin(celsius) - logKelvin(THIN.celsius));
  return 10 ** (10 ** y) - 0.7;
}

function doubleLog(viscosity: number): number {
  return Math.log10(Math.log10(viscosity + 0.7));
}

function logKelvin(celsius: number): number {
  return Math.log10(celsius + 273.15);
}

/** Length ÷ bore of the low-speed passage, and its Reynolds number at the reference temperature; assumptions. */
const PASSAGE = { slender: 3, reynolds: 500 } as const;

/**
 * Discharge coefficient of a short tube: 1/Cd = 1/Cdu + (20/Re)(1 + 2.25 L/d), Cdu = 0.827 − 0.0085 L/d (Lichtarowicz,
 * Duggins & Markland, J. Mech. Eng. Sci. 7, 1965, 210-219, without its small third term; from memory).
 */
export function dischargeCoefficient(reynolds: number, slender: number = PASSAGE.slender): number {
  return 1 / (1 / (0.827 - 0.0085 * slender) + (20 / reynolds) * (1 + 2.25 * slender));
}

/** What the low-speed passage's coefficient is multiplied by at an oil temperature: < 1 in the cold. */
export function orificeFactor(celsius: number): number {
  const reynolds = (PASSAGE.reynolds * viscosity(REFERENCE_CELSIUS)) / viscosity(celsius);
  return dischargeCoefficient(reynolds) / dischargeCoefficient(PASSAGE.reynolds);
}

/** The same bike with oil at another temperature: only the orifice path moves; seals' drag follows the viscosity. */
export function atTemperature(bike: Bike, celsius: number): Bike {
  const factor = orificeFactor(celsius);
  const drag = viscosity(celsius) / viscosity(REFERENCE_CELSIUS);
  let after = bike;
  for (const which of ENDS) {
    const end = after.ends[which];
    const moved: EndModel = {
      ...end,
      compression: turned(end.compression, factor, 1),
      rebound: turned(end.rebound, factor, 1),
      friction: { ...end.friction, viscous: end.friction.viscous * drag },
    };
    after = withEnd(after, which, moved);
  }
  return after;
}
