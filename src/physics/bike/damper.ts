/**
 * One damper circuit: an orifice (low-speed adjuster) and a shim stack (high-speed adjuster) side by side under one
 * pressure drop, so their flows add. The stack is held shut by its preload.
 *
 * With σ = √F:  v = orifice·σ + stack·(F − preload)₊·σ.
 * The orifice alone gives F = v²/orifice² (turbulent orifice, Q ∝ √Δp; Merritt, Hydraulic Control Systems, 1967, ch. 3,
 * from memory). The stack opens at its preload; its gap grows with the pressure beyond that, so Q ∝ gap·√Δp, and far
 * beyond the preload its force alone grows as v^(2/3). That two paths in parallel add their flows at one pressure drop
 * is the general form in Dixon, The Shock Absorber Handbook, 2nd ed. 2007, ch. 5-7 (from memory).
 */
import { rootForce, slopeAt } from '../machine/loops/circuit.ts';

export interface DamperCircuit {
  /** shaft speed per root force through the orifice, m/s per √N; larger = more open. Infinity = no damping */
  readonly orifice: number;
  /** shaft speed per force^(3/2) through the stack, m/s per N^1.5; larger = softer stack. 0 = the stack never opens */
  readonly stack: number;
  /** force at which the stack begins to open, N at the shaft */
  readonly preload: number;
}

/** Force in N at a shaft speed in m/s; odd in the speed. */
export function damperForce({ orifice, stack, preload }: DamperCircuit, speed: number): number {
  const sigma = rootForce(orifice, stack, preload, Math.abs(speed));
  return Math.sign(speed) * sigma * sigma;
}

/** dF/dv in N·s/m. Zero at rest, where the orifice's parabola starts; beyond the preload from the side of the open stack. */
export function damperSlope({ orifice, stack, preload }: DamperCircuit, speed: number): number {
  return slopeAt(orifice, stack, preload, rootForce(orifice, stack, preload, Math.abs(speed)));
}

/**
 * The circuit through two points of a force–speed curve.
 * @param preload N at which the stack opens
 * @returns undefined when no orifice and stack in parallel pass through them: force must rise slower than speed², and
 *   faster than a stack alone lets it
 */
export function circuitThrough(
  slow: { readonly speed: number; readonly force: number },
  fast: { readonly speed: number; readonly force: number },
  preload = 0,
): DamperCircuit | undefined {
  const a = Math.sqrt(slow.force);
  const b = Math.sqrt(fast.force);
  const beyond = (force: number): number => Math.max(0, force - preload);
  const stack = (fast.speed / b - slow.speed / a) / (beyond(fast.force) - beyond(slow.force));
  const orifice = slow.speed / a - stack * beyond(slow.force);
  return stack >= 0 && orifice >= 0 && Number.isFinite(stack) ? { orifice, stack, preload } : undefined;
}

/**
 * A circuit after its adjusters were turned: each click multiplies its coefficient by the click's ratio. The preload is
 * the shims' own and stays.
 * @param low @param high what the low- and high-speed coefficient are multiplied by; 1 = untouched, > 1 = more open
 */
export function turned(circuit: DamperCircuit, low: number, high: number): DamperCircuit {
  return { orifice: circuit.orifice * low, stack: circuit.stack * high, preload: circuit.preload };
}
