/**
 * The equations of motion under the classical fourth-order Runge–Kutta method with a fixed step (Hairer, Nørsett
 * & Wanner, Solving Ordinary Differential Equations I, 2nd ed. 1993, table II.1.2; from memory). Same input, same bits
 * out.
 *
 * Coordinates, all measured upward from the bike at full extension with its tyres just touching a road at height 0 and
 * the rider weightless on it: heave z and pitch θ (nose up) of the frame, the two wheels, heave q and pitch φ of the
 * rider. Small angles; wheels move vertically. Each with its rate; m, rad, m/s, rad/s.
 *
 *   frame·z̈    = U_front + U_rear − legs − arms − frame·g
 *   I·θ̈        = toFront·U_front − toRear·U_rear − toFeet·legs − toBars·arms − frame.slowed·a
 *   unsprung·z̈ = T − U − unsprung·g                              for each wheel
 *   rider·q̈    = legs + arms − rider·g
 *   J·φ̈        = toFeet·legs + toBars·arms − rider.slowed·a
 *
 * T ≥ 0: the tyre. H: the backward pull at a wheel, T times the slope of the road against the bike's own lean, and what
 * the brake holds; on the rear less the chain's. a = (H_front + H_rear) ÷ all masses. U = F − pulledIn·H: what reaches the frame of F, the spring,
 * damper, friction and stops at the wheel. Legs push and never pull; arms do both. `g` is gravity square to the ground,
 * with what a berm adds.
 *
 * It stands in one function with every number in a variable of its own, because that runs in half the time; the forces
 * are held against the laws, and the whole against a second writing of it, by the tests. The function sees arrays of numbers
 * alone, in the order in which `ride/simulate.ts` puts them.
 */
import type { f64, i32, Numbers } from './numbers.ts';
import { readNodes } from './curve.ts';
import { SQUEEZE } from './drag.ts';
import { CHAIN, FRONT, FRONT_RATE, GRAVITY, GRIP, PUSH, REAR, REAR_RATE, ROW } from './rows.ts';

/**
 * All steps, from the state that is in `last`, which holds the one at the end afterwards. At the very last step there is
 * only something to note.
 * @param block of a trace, in the order of `COLUMN` of `ride/trace.ts`
 */
export function run(
  numbers: Numbers,
  front: Numbers,
  rear: Numbers,
  frontElastic: Numbers,
  frontDrag: Numbers,
  rearElastic: Numbers,
  rearDrag: Numbers,
  table: Numbers,
  block: Numbers,
  samples: i32,
  last: Numbers,
  every: i32,
  steps: i32,
): void {
  const step = numbers[0]!;
  const perSpeed = numbers[1]!;
  const level = numbers[2]!;
  const total = numbers[3]!;
  const perTotal = numbers[4]!;
  const frameSlowed = numbers[5]!;
  const toFront = numbers[6]!;
  const toRear = numbers[7]!;
  const toBars = numbers[8]!;
  const toFeet = numbers[9]!;
  const perFrameMass = numbers[10]!;
  const perFrameInertia = numbers[11]!;
  const riderMass = numbers[12]!;
  const perRiderMass = numbers[13]!;
  const perRiderInertia = numbers[14]!;
  const riderSlowed = numbers[15]!;
  const riderBars = numbers[16]!;
  const riderFeet = numbers[17]!;
  const legsSpring = numbers[18]!;
  const legsLoss = numbers[19]!;
  const armsSpring = numbers[20]!;
  const armsLoss = numbers[21]!;
  const frameShare = numbers[22]!;
  const riderShare = numbers[23]!;
  const frameTurns = numbers[24]!;
  const riderTurns = numbers[25]!;
  const apart = numbers[26]!;
  const bodyToFront = numbers[27]!;
  const bodyToRear = numbers[28]!;
  const frontTyreLoss = numbers[29]!;
  const frontHertz = numbers[30]!;
  const frontTyreStiffness = numbers[31]!;
  const frontPerUnsprungMass = numbers[32]!;
  const frontBraking = numbers[33]!;
  const frontPerBump = numbers[34]!;
  const frontC0 = numbers[36]!;
  const rearTyreLoss = numbers[39]!;
  const rearHertz = numbers[40]!;
  const rearTyreStiffness = numbers[41]!;
  const rearPerUnsprungMass = numbers[42]!;
  const rearBraking = numbers[43]!;
  const rearPerBump = numbers[44]!;
  const rearChain = numbers[45]!;
  const rearC0 = numbers[46]!;
  const rearC1 = numbers[47]!;
  const rearC2 = numbers[48]!;
  const frontPerRatio = 1 / frontC0;
  const free = perRiderMass === 0;
  const moving: f64 = perSpeed > 0 ? 1 : 0;

  let z = last[0]!;
  let th = last[1]!;
  let zf = last[2]!;
  let zr = last[3]!;
  let q = last[4]!;
  let ph = last[5]!;
  let vz = last[6]!;
  let vth = last[7]!;
  let vf = last[8]!;
  let vr = last[9]!;
  let vq = last[10]!;
  let vph = last[11]!;

  for (let i = 0; i <= steps; i++) {
    // The stage's state, and the sums of its rates and accelerations.
    let pz = z;
    let pth = th;
    let pf = zf;
    let pr = zr;
    let pq = q;
    let pph = ph;
    let wz = vz;
    let wth = vth;
    let wf = vf;
    let wr = vr;
    let wq = vq;
    let wph = vph;
    let sz: f64 = 0;
    let sth: f64 = 0;
    let sf: f64 = 0;
    let sr: f64 = 0;
    let sq: f64 = 0;
    let sph: f64 = 0;
    let tz: f64 = 0;
    let tth: f64 = 0;
    let tf: f64 = 0;
    let tr: f64 = 0;
    let tq: f64 = 0;
    let tph: f64 = 0;
    for (let k = 0; k < 4; k++) {
      const row: i32 = (2 * i + ((k + 1) >> 1)) * ROW;
      const frontRate = table[row + FRONT_RATE]!;
      const rearRate = table[row + REAR_RATE]!;
      const gravity = table[row + GRAVITY]!;
      const grip = table[row + GRIP]!;

      let frontTyre: f64 = 0;
      let deflection = table[row + FRONT]! - pf;
      if (deflection > 0) {
        const factor = 1 + frontTyreLoss * (frontRate - wf);
        const shape: f64 = frontHertz !== 0 ? Math.sqrt(deflection) : 1;
        if (factor > 0) frontTyre = frontTyreStiffness * deflection * shape * factor;
      }
      let rearTyre: f64 = 0;
      deflection = table[row + REAR]! - pr;
      if (deflection > 0) {
        const factor = 1 + rearTyreLoss * (rearRate - wr);
        const shape: f64 = rearHertz !== 0 ? Math.sqrt(deflection) : 1;
        if (factor > 0) rearTyre = rearTyreStiffness * deflection * shape * factor;
      }
      const lean = (pth - level) * moving;
      const frontBump = frontTyre * (frontRate * perSpeed - lean);
      const rearBump = rearTyre * (rearRate * perSpeed - lean);
      const frontBrake = frontTyre * grip;
      const rearBrake = rearTyre * grip;
      const chain = table[row + CHAIN]! * total;
      const slowing = (frontBump + rearBump + frontBrake + rearBrake - chain) * perTotal;

      const frontTravel = pf - pz - toFront * pth;
      const frontSpeed = wf - wz - toFront * wth;
      let up = force(front, frontElastic, frontDrag, frontTravel, frontSpeed, frontPerRatio);
      up -= frontBraking * frontBrake + frontPerBump * frontBump;
      const rearTravel = pr - pz + toRear * pth;
      const rearSpeed = wr - wz + toRear * wth;
      let rearUp = force(
        rear,
        rearElastic,
        rearDrag,
        rearTravel,
        rearSpeed,
        1 / (rearC0 + rearTravel * (rearC1 + rearTravel * rearC2)),
      );
      rearUp += rearChain * chain - rearBraking * rearBrake - rearPerBump * rearBump;

      const feet = pz + toFeet * pth - pq - riderFeet * pph;
      const feetRate = wz + toFeet * wth - wq - riderFeet * wph;
      const grips = pz + toBars * pth - pq - riderBars * pph;
      const gripsRate = wz + toBars * wth - wq - riderBars * wph;
      const push = legsSpring * feet + legsLoss * feetRate + table[row + PUSH]! * riderMass;
      const legs: f64 = push > 0 ? push : 0;
      const arms = armsSpring * grips + armsLoss * gripsRate;

      const az = (up + rearUp - legs - arms) * perFrameMass - gravity;
      const turn = toFront * up - toRear * rearUp - toFeet * legs - toBars * arms - frameSlowed * slowing;
      const ath = turn * perFrameInertia;
      const af = (frontTyre - up) * frontPerUnsprungMass - gravity;
      const ar = (rearTyre - rearUp) * rearPerUnsprungMass - gravity;
      // A rider who is part of the frame has no mass here, and stays where the run began.
      const aq: f64 = free ? 0 : (legs + arms) * perRiderMass - gravity;
      const aph = (riderFeet * legs + riderBars * arms - riderSlowed * slowing) * perRiderInertia;

      if (k === 0) {
        block[13 * samples + i] = az + toBars * ath;
        if (i % every === 0) {
          const s: i32 = i / every;
          block[s] = frontTravel;
          block[samples + s] = frontSpeed;
          block[2 * samples + s] = up;
          block[3 * samples + s] = frontTyre;
          const lift = wz * frameShare + wq * riderShare;
          const turning = wth * frameTurns + wph * riderTurns + (wq - wz) * apart;
          block[4 * samples + s] = lift + bodyToFront * turning;
          block[5 * samples + s] = rearTravel;
          block[6 * samples + s] = rearSpeed;
          block[7 * samples + s] = rearUp;
          block[8 * samples + s] = rearTyre;
          block[9 * samples + s] = lift - bodyToRear * turning;
          block[10 * samples + s] = pth;
          block[11 * samples + s] = wth;
          block[12 * samples + s] = arms;
        }
        if (i === steps) break;
      }
      const weight: f64 = k === 1 || k === 2 ? 2 : 1;
      sz += weight * wz;
      sth += weight * wth;
      sf += weight * wf;
      sr += weight * wr;
      sq += weight * wq;
      sph += weight * wph;
      tz += weight * az;
      tth += weight * ath;
      tf += weight * af;
      tr += weight * ar;
      tq += weight * aq;
      tph += weight * aph;
      const h = k === 2 ? step : step / 2;
      pz = z + h * wz;
      pth = th + h * wth;
      pf = zf + h * wf;
      pr = zr + h * wr;
      pq = q + h * wq;
      pph = ph + h * wph;
      wz = vz + h * az;
      wth = vth + h * ath;
      wf = vf + h * af;
      wr = vr + h * ar;
      wq = vq + h * aq;
      wph = vph + h * aph;
    }
    if (i === steps) break;
    const sixth = step / 6;
    z += sixth * sz;
    th += sixth * sth;
    zf += sixth * sf;
    zr += sixth * sr;
    q += sixth * sq;
    ph += sixth * sph;
    vz += sixth * tz;
    vth += sixth * tth;
    vf += sixth * tf;
    vr += sixth * tr;
    vq += sixth * tq;
    vph += sixth * tph;
  }
  last[0] = z;
  last[1] = th;
  last[2] = zf;
  last[3] = zr;
  last[4] = q;
  last[5] = ph;
  last[6] = vz;
  last[7] = vth;
  last[8] = vf;
  last[9] = vr;
  last[10] = vq;
  last[11] = vph;
}

/** Force of an end on the frame, N at the wheel, + = up; travel and rate are the wheel's against the frame, m, m/s. */
function force(end: Numbers, elastic: Numbers, drag: Numbers, travel: f64, rate: f64, perRatio: f64): f64 {
  const speed = rate * perRatio;
  const squeezed = speed / (Math.abs(speed) + SQUEEZE);
  const still =
    readNodes(elastic, end[0]!, end[1]!, end[2]!, travel) +
    readNodes(drag, end[3]!, end[4]!, end[5]!, squeezed) * perRatio;
  // Nothing is added above the bumper; a branch that is first taken late would throw the compiled code away.
  const below = travel - end[6]!;
  const depth: f64 = below > 0 ? below : 0;
  const loss = end[8]! * rate;
  return still + end[7]! * depth * depth * depth * (loss < -1 ? -1 : loss);
}
