/**
 * One damper circuit: an orifice (low-speed adjuster) and a shim stack (high-speed adjuster) side by side under one
 * pressure drop, so their flows add.
 *
 * With σ = √F:  v = orifice·σ + stack·σ³.
 * The orifice alone gives F = v²/orifice² (turbulent orifice, Q ∝ √Δp; Merritt, Hydraulic Control Systems, 1967, ch. 3,
 * from memory). The stack alone gives F = (v/stack)^(2/3): its gap grows with the pressure that bends it, so
 * Q ∝ gap·√Δp ∝ Δp^(3/2). That two paths in parallel add their flows at one pressure drop is the general form in Dixon,
 * The Shock Absorber Handbook, 2nd ed. 2007, ch. 5-7 (from memory).
 */

export interface DamperCircuit {
  /** shaft speed per root force through the orifice, m/s per √N; larger = more open. Infinity = no damping */
  readonly orifice: number;
  /** shaft speed per force^(3/2) through the stack, m/s per N^1.5; larger = softer stack. 0 = the stack never opens */
  readonly stack: number;
}

/**
 * σ = √F at a shaft speed ≥ 0, in √N.
 *
 * Cardano's root u − w of stack·σ³ + orifice·σ = v, with u³ = v/(2·stack) + √((v/(2·stack))² + t³), t = orifice/(3·stack)
 * and w = t/u, written as (u³ − w³)/(u² + u·w + w²): the plain difference loses every digit at small speeds, this none.
 */
function rootForce({ orifice, stack }: DamperCircuit, speed: number): number {
  if (speed === 0 || !Number.isFinite(orifice) || !Number.isFinite(stack)) return 0;
  if (stack === 0) return speed / orifice;
  const t = orifice / (3 * stack);
  const half = speed / (2 * stack);
  const u = Math.cbrt(half + Math.sqrt(half * half + t * t * t));
  const w = t / u;
  return speed / (stack * (u * u + t + w * w));
}

/** Force in N at a shaft speed in m/s; odd in the speed. */
export function damperForce(circuit: DamperCircuit, speed: number): number {
  const sigma = rootForce(circuit, Math.abs(speed));
  return Math.sign(speed) * sigma * sigma;
}

/** dF/dv in N·s/m: 2σ/(orifice + 3·stack·σ²). Zero at rest, where the orifice's parabola starts. */
export function damperSlope(circuit: DamperCircuit, speed: number): number {
  const { orifice, stack } = circuit;
  if (!Number.isFinite(orifice) || !Number.isFinite(stack)) return 0;
  const sigma = rootForce(circuit, Math.abs(speed));
  // With no orifice the stack's F ∝ v^(2/3) starts with an upright tangent.
  if (sigma === 0) return orifice === 0 ? Infinity : 0;
  return (2 * sigma) / (orifice + 3 * stack * sigma * sigma);
}

/** Shaft speed in m/s that makes a force in N ≥ 0. */
export function damperSpeed(circuit: DamperCircuit, force: number): number {
  const sigma = Math.sqrt(force);
  return circuit.orifice * sigma + circuit.stack * force * sigma;
}

/**
 * The circuit through two points of a force–speed curve.
 * @returns undefined when no orifice and stack in parallel pass through them: force must rise faster than speed^(2/3)
 *   and slower than speed²
 */
export function circuitThrough(
  slow: { readonly speed: number; readonly force: number },
  fast: { readonly speed: number; readonly force: number },
): DamperCircuit | undefined {
  const a = Math.sqrt(slow.force);
  const b = Math.sqrt(fast.force);
  const stack = (fast.speed / b - slow.speed / a) / (fast.force - slow.force);
  const orifice = slow.speed / a - stack * slow.force;
  return stack >= 0 && orifice >= 0 && Number.isFinite(stack) ? { orifice, stack } : undefined;
}

/**
 * A circuit after its adjusters were turned: each click multiplies its coefficient by the click's ratio.
 * @param low @param high what the low- and high-speed coefficient are multiplied by; 1 = untouched, > 1 = more open
 */
export function turned(circuit: DamperCircuit, low: number, high: number): DamperCircuit {
  return { orifice: circuit.orifice * low, stack: circuit.stack * high };
}
