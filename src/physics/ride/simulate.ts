/**
 * The run: the equations of motion under the classical fourth-order Runge–Kutta method with a fixed step (Hairer, Nørsett
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
 * are held against the laws, and the whole against a second writing of it, by the tests.
 */
import { SQUEEZE, type CompiledBike, type CompiledEnd } from './compile.ts';
import { DRIVE, type Drive } from './drive.ts';
import { restState } from '../bike/equilibrium.ts';
import { readTable } from '../table.ts';
import { emptyTrace, type Trace } from './trace.ts';

/** s between samples that are kept; a step never is longer */
const SAMPLE = 0.001;

/** At rest under the first instant of a drive. */
function firstState(c: CompiledBike, { table }: Drive): Float64Array {
  const gravity = table[DRIVE.gravity]!;
  return restState(c, gravity, table[DRIVE.grip]! * gravity, table[DRIVE.front], table[DRIVE.rear]);
}

/** @param from the state to start in; default: at rest under the drive's first instant; @param every steps a sample */
export function simulate(
  c: CompiledBike,
  drive: Drive,
  from: Float64Array = firstState(c, drive),
  every = Math.max(1, Math.round(SAMPLE / drive.step)),
): Trace {
  const { step, steps, table, perSpeed } = drive;
  const trace = emptyTrace(Math.floor(steps / every) + 1, step * every, steps, step);
  const { front: frontTrace, rear: rearTrace, pitch, pitchRate, hands, bars } = trace;
  const { front, rear, total, perTotal, frameSlowed, toFront, toRear, toBars, toFeet } = c;
  const { perFrameMass, perFrameInertia, riderMass, perRiderMass, perRiderInertia, riderSlowed } = c;
  const { riderBars, riderFeet, legs: legsSpring, legsLoss, arms: armsSpring, armsLoss } = c;
  const { c0, c1, c2 } = rear;
  const frontPerRatio = 1 / front.c0;
  const free = perRiderMass === 0;
  // The bike's own level: rolling along a slope it leans with it, and the ground pushes square to its wheels.
  const level = from[1]! - (table[DRIVE.front]! - table[DRIVE.rear]!) / (toFront + toRear);
  const moving = perSpeed > 0 ? 1 : 0;
  const { frameShare, riderShare, frameTurns, riderTurns, apart } = c;

  let z = from[0]!;
  let th = from[1]!;
  let zf = from[2]!;
  let zr = from[3]!;
  let q = from[4]!;
  let ph = from[5]!;
  let vz = from[6]!;
  let vth = from[7]!;
  let vf = from[8]!;
  let vr = from[9]!;
  let vq = from[10]!;
  let vph = from[11]!;

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
    let sz = 0;
    let sth = 0;
    let sf = 0;
    let sr = 0;
    let sq = 0;
    let sph = 0;
    let tz = 0;
    let tth = 0;
    let tf = 0;
    let tr = 0;
    let tq = 0;
    let tph = 0;
    for (let k = 0; k < 4; k++) {
      const row = (2 * i + ((k + 1) >> 1)) * DRIVE.width;
      const frontRate = table[row + DRIVE.frontRate]!;
      const rearRate = table[row + DRIVE.rearRate]!;
      const gravity = table[row + DRIVE.gravity]!;
      const grip = table[row + DRIVE.grip]!;

      let frontTyre = 0;
      let deflection = table[row + DRIVE.front]! - pf;
      if (deflection > 0) {
        const factor = 1 + front.tyreLoss * (frontRate - wf);
        const shape = front.hertz ? Math.sqrt(deflection) : 1;
        if (factor > 0) frontTyre = front.tyreStiffness * deflection * shape * factor;
      }
      let rearTyre = 0;
      deflection = table[row + DRIVE.rear]! - pr;
      if (deflection > 0) {
        const factor = 1 + rear.tyreLoss * (rearRate - wr);
        const shape = rear.hertz ? Math.sqrt(deflection) : 1;
        if (factor > 0) rearTyre = rear.tyreStiffness * deflection * shape * factor;
      }
      const lean = (pth - level) * moving;
      const frontBump = frontTyre * (frontRate * perSpeed - lean);
      const rearBump = rearTyre * (rearRate * perSpeed - lean);
      const frontBrake = frontTyre * grip;
      const rearBrake = rearTyre * grip;
      const chain = table[row + DRIVE.chain]! * total;
      const slowing = (frontBump + rearBump + frontBrake + rearBrake - chain) * perTotal;

      const frontTravel = pf - pz - toFront * pth;
      const frontSpeed = wf - wz - toFront * wth;
      let up = force(front, frontTravel, frontSpeed, frontPerRatio);
      up -= front.braking * frontBrake + front.bump * frontBump;
      const rearTravel = pr - pz + toRear * pth;
      const rearSpeed = wr - wz + toRear * wth;
      let rearUp = force(rear, rearTravel, rearSpeed, 1 / (c0 + rearTravel * (c1 + rearTravel * c2)));
      rearUp += rear.chain * chain - rear.braking * rearBrake - rear.bump * rearBump;

      const feet = pz + toFeet * pth - pq - riderFeet * pph;
      const feetRate = wz + toFeet * wth - wq - riderFeet * wph;
      const grips = pz + toBars * pth - pq - riderBars * pph;
      const gripsRate = wz + toBars * wth - wq - riderBars * wph;
      const push = legsSpring * feet + legsLoss * feetRate + table[row + DRIVE.push]! * riderMass;
      const legs = push > 0 ? push : 0;
      const arms = armsSpring * grips + armsLoss * gripsRate;

      const az = (up + rearUp - legs - arms) * perFrameMass - gravity;
      const turn = toFront * up - toRear * rearUp - toFeet * legs - toBars * arms - frameSlowed * slowing;
      const ath = turn * perFrameInertia;
      const af = (frontTyre - up) * front.perUnsprungMass - gravity;
      const ar = (rearTyre - rearUp) * rear.perUnsprungMass - gravity;
      // A rider who is part of the frame has no mass here, and stays where the run began.
      const aq = free ? 0 : (legs + arms) * perRiderMass - gravity;
      const aph = (riderFeet * legs + riderBars * arms - riderSlowed * slowing) * perRiderInertia;

      if (k === 0) {
        bars[i] = az + toBars * ath;
        if (i % every === 0) {
          const s = i / every;
          frontTrace.travel[s] = frontTravel;
          frontTrace.rate[s] = frontSpeed;
          frontTrace.force[s] = up;
          frontTrace.tyre[s] = frontTyre;
          const lift = wz * frameShare + wq * riderShare;
          const turning = wth * frameTurns + wph * riderTurns + (wq - wz) * apart;
          frontTrace.bodyRate[s] = lift + c.bodyToFront * turning;
          rearTrace.travel[s] = rearTravel;
          rearTrace.rate[s] = rearSpeed;
          rearTrace.force[s] = rearUp;
          rearTrace.tyre[s] = rearTyre;
          rearTrace.bodyRate[s] = lift - c.bodyToRear * turning;
          pitch[s] = pth;
          pitchRate[s] = wth;
          hands[s] = arms;
        }
        if (i === steps) break;
      }
      const weight = k === 1 || k === 2 ? 2 : 1;
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
  trace.last.set([z, th, zf, zr, q, ph, vz, vth, vf, vr, vq, vph]);
  return trace;
}

/** Force of an end on the frame, N at the wheel, + = up; travel and rate are the wheel's against the frame, m, m/s. */
function force(end: CompiledEnd, travel: number, rate: number, perRatio: number): number {
  const speed = rate * perRatio;
  const squeezed = speed / ((speed < 0 ? -speed : speed) + SQUEEZE);
  const still = readTable(end.elastic, travel) + readTable(end.drag, squeezed) * perRatio;
  const depth = travel - end.bumperFrom;
  if (depth <= 0) return still;
  const loss = end.bumperLoss * rate;
  return still + end.bumper * depth * depth * depth * (loss < -1 ? -1 : loss);
}
