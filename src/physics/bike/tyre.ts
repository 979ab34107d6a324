/**
 * A tyre that can only push: nothing when it is in the air. `hertz`: F = stiffness·d^1.5 with d the deflection, the small-load law measured on bicycle tyres by Renart &
 * Roura-Grabulosa, Am. J. Phys. 87, 2019, 102 (abstract); it also starts without a kink. `linear` is for comparisons
 * with closed forms.
 */

export interface Tyre {
  readonly shape: 'hertz' | 'linear';
  /** N/m^1.5 (hertz) or N/m (linear) at `pressure` */
  readonly stiffness: number;
  /** gauge pressure, Pa */
  readonly pressure: number;
  /** share of the stiffness that is casing and stays without pressure, 0..1, at `pressure` */
  readonly casing: number;
  /** loss, s/m: pushed in at speed v the tyre pushes (1 + loss·v) times as hard, never less than nothing */
  readonly loss: number;
}

/** The same tyre at another gauge pressure, Pa: pressure is the main factor of its stiffness (Rothhämel, BMD 2023, abstract). */
export function tyreAt(tyre: Tyre, pressure: number): Tyre {
  const factor = tyre.casing + ((1 - tyre.casing) * pressure) / tyre.pressure;
  return { ...tyre, stiffness: tyre.stiffness * factor, pressure, casing: tyre.casing / factor };
}
