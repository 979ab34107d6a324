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

export interface DamperCircuit {
  /** shaft speed per root force through the orifice, m/s per √N; larger = more open. Infinity = no damping */
  readonly orifice: number;
  /** shaft speed per force^(3/2) through the stack, m/s per N^1.5; larger = softer stack. 0 = the stack never opens */
  readonly stack: number;
  /** force at which the stack begins to open, N at the shaft */
  readonly preload: number;
}

/** Newton's steps come down to the root from above; a dozen is more than any damper of a bike takes. */
const MOST_STEPS = 60;

/** σ = √F at a shaft speed ≥ 0, in √N. */
function rootForce({ orifice, stack, preload }: DamperCircuit, speed: number): number {
  if (speed === 0 || !Number.isFinite(orifice) || !Number.isFinite(stack)) return 0;
  const alone = speed / orifice;
  if (stack === 0 || alone * alone <= preload) return alone;
  // Above the preload the flow is convex in σ, so Newton's method from any point beyond the root only comes down.
  let sigma = Math.min(alone, Math.sqrt(preload) + Math.cbrt(speed / stack));
  for (let i = 0; i < MOST_STEPS; i++) {
    const beyond = sigma * sigma - preload;
    const flow = sigma * (orifice + stack * beyond);
    const step = (flow - speed) / (orifice + stack * (beyond + 2 * sigma * sigma));
    sigma -= step;
    if (Math.abs(step) <= 1e-15 * sigma) break;
  }
  return sigma;
}

/** Force in N at a shaft speed in m/s; odd in the speed. */
export function damperForce(circuit: DamperCircuit, speed: number): number {
  const sigma = rootForce(circuit, Math.abs(speed));
  return Math.sign(speed) * sigma * sigma;
}

/** dF/dv in N·s/m. Zero at rest, where the orifice's parabola starts; beyond the preload from the side of the open stack. */
export function damperSlope(circuit: DamperCircuit, speed: number): number {
  const { orifice, stack, preload } = circuit;
  if (!Number.isFinite(orifice) || !Number.isFinite(stack)) return 0;
  const sigma = rootForce(circuit, Math.abs(speed));
  // With no orifice a stack without preload starts with an upright tangent, and one with preload with a step.
  if (sigma === 0) return orifice === 0 ? Infinity : 0;
  const beyond = sigma * sigma - preload;
  const opening = beyond < 0 ? 0 : stack * (beyond + 2 * sigma * sigma);
  return (2 * sigma) / (orifice + opening);
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
