/** A circuit of a damper: the law of `bike/damper.ts`. */
import type { f64 } from './numbers.ts';
import { cubeRoot } from './numbers.ts';

/** Newton's steps come down to the root from above; a dozen is more than any damper of a bike takes. */
const MOST_STEPS = 60;

/** σ = √F at a shaft speed ≥ 0, in √N. */
export function rootForce(orifice: f64, stack: f64, preload: f64, speed: f64): f64 {
  if (speed === 0 || !isFinite(orifice) || !isFinite(stack)) return 0;
  const alone = speed / orifice;
  if (stack === 0 || alone * alone <= preload) return alone;
  // Above the preload the flow is convex in σ, so Newton's method from any point beyond the root only comes down.
  let sigma = Math.min(alone, Math.sqrt(preload) + cubeRoot(speed / stack));
  for (let i = 0; i < MOST_STEPS; i++) {
    const beyond = sigma * sigma - preload;
    const flow = sigma * (orifice + stack * beyond);
    const step = (flow - speed) / (orifice + stack * (beyond + 2 * sigma * sigma));
    sigma -= step;
    if (Math.abs(step) <= 1e-15 * sigma) break;
  }
  return sigma;
}

/** dF/dv in N·s/m where the root force is σ. */
export function slopeAt(orifice: f64, stack: f64, preload: f64, sigma: f64): f64 {
  if (!isFinite(orifice) || !isFinite(stack)) return 0;
  // With no orifice a stack without preload starts with an upright tangent, and one with preload with a step.
  if (sigma === 0) return orifice === 0 ? Infinity : 0;
  const beyond = sigma * sigma - preload;
  const opening: f64 = beyond < 0 ? 0 : stack * (beyond + 2 * sigma * sigma);
  return (2 * sigma) / (orifice + opening);
}
