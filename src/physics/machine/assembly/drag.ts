/** The table of damper and friction, as `compile.ts` makes it, and a damper's circuit, as `damper.ts` has it. */
import { cubeRoot } from './engine';

const SQUEEZE: f64 = 0.5;
const MOST_STEPS = 60;

function rootForce(orifice: f64, stack: f64, preload: f64, speed: f64): f64 {
  if (speed == 0 || !isFinite(orifice) || !isFinite(stack)) return 0;
  const alone = speed / orifice;
  if (stack == 0 || alone * alone <= preload) return alone;
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

function slopeAt(orifice: f64, stack: f64, preload: f64, sigma: f64): f64 {
  if (!isFinite(orifice) || !isFinite(stack)) return 0;
  if (sigma == 0) return orifice == 0 ? Infinity : 0;
  const beyond = sigma * sigma - preload;
  const opening: f64 = beyond < 0 ? 0 : stack * (beyond + 2 * sigma * sigma);
  return (2 * sigma) / (orifice + opening);
}

/** @param circuits orifice, stack and preload of compression, then of rebound, then viscous, coulomb and blend */
export function dragTable(nodes: usize, pieces: i32, first: f64, spacing: f64, circuits: usize): void {
  const viscous = load<f64>(circuits, 48);
  const coulomb = load<f64>(circuits, 56);
  const blend = load<f64>(circuits, 64);
  for (let i = 0; i <= pieces; i++) {
    const s = first + <f64>i * spacing;
    const speed = (SQUEEZE * s) / (1 - Math.abs(s));
    const circuit = speed > 0 ? circuits : circuits + 24;
    const orifice = load<f64>(circuit);
    const stack = load<f64>(circuit, 8);
    const preload = load<f64>(circuit, 16);
    const sigma = rootForce(orifice, stack, preload, Math.abs(speed));
    const apart = Math.sqrt(speed * speed + blend * blend);
    const dry: f64 = coulomb == 0 ? 0 : (coulomb * blend * blend) / (apart * apart * apart);
    const slope = slopeAt(orifice, stack, preload, sigma) + viscous + dry;
    const force = Math.sign(speed) * sigma * sigma + viscous * speed + (coulomb * speed) / apart;
    const left = 1 - Math.abs(s);
    const node = nodes + ((<usize>i) << 4);
    store<f64>(node, force);
    store<f64>(node, ((slope * SQUEEZE) / (left * left)) * spacing, 8);
  }
}

/** The steepest slope of that table over the speed. */
export function steepest(nodes: usize, pieces: i32, first: f64, perUnit: f64): f64 {
  let most: f64 = 0;
  for (let i = 0; i <= pieces; i++) {
    const left = 1 - Math.abs(first + <f64>i / perUnit);
    const slope = (load<f64>(nodes + ((<usize>i) << 4), 8) * perUnit * left * left) / SQUEEZE;
    if (slope > most) most = slope;
  }
  return most;
}
