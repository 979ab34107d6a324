/**
 * All steps of a run: the loop of `ride/stretch.ts`, which says what it does, line by line the same, so that both give the
 * same bits. It is here because a start would run most of that loop before the engine has compiled it; machine code is fast
 * at once. Pointers are bytes in memory, numbers lie eight bytes apart.
 */
import { readNodes } from './curve';

const SQUEEZE: f64 = 0.5;

export function run(
  numbers: usize,
  front: usize,
  rear: usize,
  frontElastic: usize,
  frontDrag: usize,
  rearElastic: usize,
  rearDrag: usize,
  table: usize,
  block: usize,
  samples: i32,
  last: usize,
  every: i32,
  steps: i32,
): void {
  const step = load<f64>(numbers, 0 << 3);
  const perSpeed = load<f64>(numbers, 1 << 3);
  const level = load<f64>(numbers, 2 << 3);
  const total = load<f64>(numbers, 3 << 3);
  const perTotal = load<f64>(numbers, 4 << 3);
  const frameSlowed = load<f64>(numbers, 5 << 3);
  const toFront = load<f64>(numbers, 6 << 3);
  const toRear = load<f64>(numbers, 7 << 3);
  const toBars = load<f64>(numbers, 8 << 3);
  const toFeet = load<f64>(numbers, 9 << 3);
  const perFrameMass = load<f64>(numbers, 10 << 3);
  const perFrameInertia = load<f64>(numbers, 11 << 3);
  const riderMass = load<f64>(numbers, 12 << 3);
  const perRiderMass = load<f64>(numbers, 13 << 3);
  const perRiderInertia = load<f64>(numbers, 14 << 3);
  const riderSlowed = load<f64>(numbers, 15 << 3);
  const riderBars = load<f64>(numbers, 16 << 3);
  const riderFeet = load<f64>(numbers, 17 << 3);
  const legsSpring = load<f64>(numbers, 18 << 3);
  const legsLoss = load<f64>(numbers, 19 << 3);
  const armsSpring = load<f64>(numbers, 20 << 3);
  const armsLoss = load<f64>(numbers, 21 << 3);
  const frameShare = load<f64>(numbers, 22 << 3);
  const riderShare = load<f64>(numbers, 23 << 3);
  const frameTurns = load<f64>(numbers, 24 << 3);
  const riderTurns = load<f64>(numbers, 25 << 3);
  const apart = load<f64>(numbers, 26 << 3);
  const bodyToFront = load<f64>(numbers, 27 << 3);
  const bodyToRear = load<f64>(numbers, 28 << 3);
  const frontTyreLoss = load<f64>(numbers, 29 << 3);
  const frontHertz = load<f64>(numbers, 30 << 3);
  const frontTyreStiffness = load<f64>(numbers, 31 << 3);
  const frontPerUnsprungMass = load<f64>(numbers, 32 << 3);
  const frontBraking = load<f64>(numbers, 33 << 3);
  const frontPerBump = load<f64>(numbers, 34 << 3);
  const frontC0 = load<f64>(numbers, 36 << 3);
  const rearTyreLoss = load<f64>(numbers, 39 << 3);
  const rearHertz = load<f64>(numbers, 40 << 3);
  const rearTyreStiffness = load<f64>(numbers, 41 << 3);
  const rearPerUnsprungMass = load<f64>(numbers, 42 << 3);
  const rearBraking = load<f64>(numbers, 43 << 3);
  const rearPerBump = load<f64>(numbers, 44 << 3);
  const rearChain = load<f64>(numbers, 45 << 3);
  const rearC0 = load<f64>(numbers, 46 << 3);
  const rearC1 = load<f64>(numbers, 47 << 3);
  const rearC2 = load<f64>(numbers, 48 << 3);
  const frontPerRatio = 1 / frontC0;
  const free: bool = perRiderMass == 0;
  const moving: f64 = perSpeed > 0 ? 1 : 0;

  let z = load<f64>(last, 0 << 3);
  let th = load<f64>(last, 1 << 3);
  let zf = load<f64>(last, 2 << 3);
  let zr = load<f64>(last, 3 << 3);
  let q = load<f64>(last, 4 << 3);
  let ph = load<f64>(last, 5 << 3);
  let vz = load<f64>(last, 6 << 3);
  let vth = load<f64>(last, 7 << 3);
  let vf = load<f64>(last, 8 << 3);
  let vr = load<f64>(last, 9 << 3);
  let vq = load<f64>(last, 10 << 3);
  let vph = load<f64>(last, 11 << 3);

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
      const row: usize = table + (((2 * i + ((k + 1) >> 1)) * 8) << 3);
      const frontRate = load<f64>(row, 1 << 3);
      const rearRate = load<f64>(row, 3 << 3);
      const gravity = load<f64>(row, 4 << 3);
      const grip = load<f64>(row, 5 << 3);

      let frontTyre: f64 = 0;
      let deflection = load<f64>(row, 0 << 3) - pf;
      if (deflection > 0) {
        const factor = 1 + frontTyreLoss * (frontRate - wf);
        const shape: f64 = frontHertz != 0 ? sqrt(deflection) : 1;
        if (factor > 0) frontTyre = frontTyreStiffness * deflection * shape * factor;
      }
      let rearTyre: f64 = 0;
      deflection = load<f64>(row, 2 << 3) - pr;
      if (deflection > 0) {
        const factor = 1 + rearTyreLoss * (rearRate - wr);
        const shape: f64 = rearHertz != 0 ? sqrt(deflection) : 1;
        if (factor > 0) rearTyre = rearTyreStiffness * deflection * shape * factor;
      }
      const lean = (pth - level) * moving;
      const frontBump = frontTyre * (frontRate * perSpeed - lean);
      const rearBump = rearTyre * (rearRate * perSpeed - lean);
      const frontBrake = frontTyre * grip;
      const rearBrake = rearTyre * grip;
      const chain = load<f64>(row, 6 << 3) * total;
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
      const push = legsSpring * feet + legsLoss * feetRate + load<f64>(row, 7 << 3) * riderMass;
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

      if (k == 0) {
        store<f64>(block + ((13 * samples + i) << 3), az + toBars * ath);
        if (i % every == 0) {
          const s = i / every;
          store<f64>(block + ((0 * samples + s) << 3), frontTravel);
          store<f64>(block + ((1 * samples + s) << 3), frontSpeed);
          store<f64>(block + ((2 * samples + s) << 3), up);
          store<f64>(block + ((3 * samples + s) << 3), frontTyre);
          const lift = wz * frameShare + wq * riderShare;
          const turning = wth * frameTurns + wph * riderTurns + (wq - wz) * apart;
          store<f64>(block + ((4 * samples + s) << 3), lift + bodyToFront * turning);
          store<f64>(block + ((5 * samples + s) << 3), rearTravel);
          store<f64>(block + ((6 * samples + s) << 3), rearSpeed);
          store<f64>(block + ((7 * samples + s) << 3), rearUp);
          store<f64>(block + ((8 * samples + s) << 3), rearTyre);
          store<f64>(block + ((9 * samples + s) << 3), lift - bodyToRear * turning);
          store<f64>(block + ((10 * samples + s) << 3), pth);
          store<f64>(block + ((11 * samples + s) << 3), wth);
          store<f64>(block + ((12 * samples + s) << 3), arms);
        }
        if (i == steps) break;
      }
      const weight: f64 = k == 1 || k == 2 ? 2 : 1;
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
      const h = k == 2 ? step : step / 2;
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
    if (i == steps) break;
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
  store<f64>(last, z, 0 << 3);
  store<f64>(last, th, 1 << 3);
  store<f64>(last, zf, 2 << 3);
  store<f64>(last, zr, 3 << 3);
  store<f64>(last, q, 4 << 3);
  store<f64>(last, ph, 5 << 3);
  store<f64>(last, vz, 6 << 3);
  store<f64>(last, vth, 7 << 3);
  store<f64>(last, vf, 8 << 3);
  store<f64>(last, vr, 9 << 3);
  store<f64>(last, vq, 10 << 3);
  store<f64>(last, vph, 11 << 3);
}

/** Force of an end on the frame, N at the wheel, + = up; travel and rate are the wheel's against the frame, m, m/s. */
function force(end: usize, elastic: usize, drag: usize, travel: f64, rate: f64, perRatio: f64): f64 {
  const speed = rate * perRatio;
  const squeezed = speed / (abs(speed) + SQUEEZE);
  const still =
    readNodes(elastic, load<f64>(end, 0 << 3), load<f64>(end, 1 << 3), load<f64>(end, 2 << 3), travel) +
    readNodes(drag, load<f64>(end, 3 << 3), load<f64>(end, 4 << 3), load<f64>(end, 5 << 3), squeezed) *
      perRatio;
  // Nothing is added above the bumper; a branch that is first taken late would throw the compiled code away.
  const below = travel - load<f64>(end, 6 << 3);
  const depth: f64 = below > 0 ? below : 0;
  const loss = load<f64>(end, 8 << 3) * rate;
  return still + load<f64>(end, 7 << 3) * depth * depth * depth * (loss < -1 ? -1 : loss);
}
