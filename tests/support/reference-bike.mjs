// The half-bike written a second time from the equations alone: no tables, the damper's cubic solved by bisection, every law in its textbook form. Shares nothing with src/dynamics but the description of the bike.

const ATMOSPHERE = 101_325;

/**
 * @param loads weight on each end's spring standing on level ground, N at the wheel: there its gas came to rest
 * @returns (time, state) → rates, for a bike on a road given as height(x), slope(x); state and rates as in the model
 */
export function referenceRates(bike, loads, start, { height, slope, speed, from = 0, gravity, braking }) {
  const { frame, rider, toFront, toRear, mass } = bike.body;
  const wheelbase = toFront + toRear;
  const { front, rear } = bike.ends;
  const total = mass + front.unsprungMass + rear.unsprungMass;
  const rests = { front: restOf(front, loads.front), rear: restOf(rear, loads.rear) };
  const level = start[1] - (height(from) - height(from - wheelbase)) / wheelbase;
  return (t, y) => {
    const [z, pitch, zf, zr, q, lean, vz, vp, vf, vr, vq, vl] = y;
    const g = gravity(t);
    const x = from + speed * t;
    const wheels = [
      { end: front, rest: rests.front, arm: frame.toFront, place: x, z: zf, v: vf },
      { end: rear, rest: rests.rear, arm: -frame.toRear, place: x - wheelbase, z: zr, v: vr },
    ].map((w) => {
      const ground = slope(w.place);
      const load = tyre(w.end.tyre, height(w.place) - w.z, speed * ground - w.v);
      const brake = (load * braking(t)) / g;
      const bump = load * (ground - (pitch - level));
      const spring = endForce(w.end, w.z - (z + w.arm * pitch), w.v - (vz + w.arm * vp), w.rest);
      return {
        ...w,
        load,
        pull: brake + bump,
        up: spring - w.end.pulledIn.braking * brake - w.end.pulledIn.bump * bump,
      };
    });
    const slowing = (wheels[0].pull + wheels[1].pull) / total;
    // Hands and feet: where they are on the frame, against where they are on the rider.
    const squeeze = (onFrame, onRider) => [
      z + onFrame * pitch - (q + onRider * lean),
      vz + onFrame * vp - (vq + onRider * vl),
    ];
    const [feet, feetRate] = squeeze(frame.toFeet, rider.toFeet);
    const [hands, handsRate] = squeeze(frame.toBars, rider.toBars);
    const legs = Math.max(0, rider.legs.stiffness * feet + rider.legs.damping * feetRate);
    const arms = rider.arms.stiffness * hands + rider.arms.damping * handsRate;
    const lift = wheels[0].up + wheels[1].up - legs - arms;
    const turn =
      wheels[0].arm * wheels[0].up + wheels[1].arm * wheels[1].up - frame.toFeet * legs - frame.toBars * arms;
    return [
      vz,
      vp,
      vf,
      vr,
      vq,
      vl,
      lift / frame.mass - g,
      (turn - frame.slowed * slowing) / frame.inertia,
      (wheels[0].load - wheels[0].up) / front.unsprungMass - g,
      (wheels[1].load - wheels[1].up) / rear.unsprungMass - g,
      (legs + arms) / rider.mass - g,
      (rider.toFeet * legs + rider.toBars * arms - rider.slowed * slowing) / rider.inertia,
    ];
  };
}

/** Shaft travel at which an end comes to rest under a load, its gas at its own temperature. */
export function restOf(end, load) {
  const { c0, c1, c2, travel } = end.linkage;
  const { bottomLength, bottomForce, topLength, topForce } = end.stops;
  const stroke = integrate((x) => 1 / (c0 + c1 * x + c2 * x * x), travel);
  const carried = (x) => {
    const shaft = integrate((w) => 1 / (c0 + c1 * w + c2 * w * w), x);
    let force = spring(end.spring, shaft, shaft);
    const bottom = (shaft - stroke + bottomLength) / bottomLength;
    if (bottom > 0) force += bottomForce * bottom ** 3;
    const top = (topLength - shaft) / topLength;
    if (top > 0) force -= topForce * top ** 3;
    return force / (c0 + c1 * x + c2 * x * x);
  };
  let [low, high] = [0, travel];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (carried(middle) < load) low = middle;
    else high = middle;
  }
  return integrate((x) => 1 / (c0 + c1 * x + c2 * x * x), (low + high) / 2);
}

export function endForce(end, travel, rate, rest) {
  const { c0, c1, c2 } = end.linkage;
  const ratio = c0 + c1 * travel + c2 * travel * travel;
  const shaft = integrate((x) => 1 / (c0 + c1 * x + c2 * x * x), travel);
  const stroke = integrate((x) => 1 / (c0 + c1 * x + c2 * x * x), end.linkage.travel);
  const v = rate / ratio;
  const circuit = v > 0 ? end.compression : end.rebound;
  const sigma = root(circuit, Math.abs(v));
  const { coulomb, blend, viscous } = end.friction;
  let force = spring(end.spring, shaft, rest) + Math.sign(v) * sigma * sigma;
  force += viscous * v + (coulomb * v) / Math.sqrt(v * v + blend * blend);
  const { bottomLength, bottomForce, topLength, topForce, loss } = end.stops;
  // The bumper's loss counts depth in wheel travel, its length converted by the ratio at full travel.
  const endRatio = c0 + c1 * end.linkage.travel + c2 * end.linkage.travel ** 2;
  const depth = (travel - end.linkage.travel + bottomLength * endRatio) / (bottomLength * endRatio);
  const elastic = (shaft - stroke + bottomLength) / bottomLength;
  if (elastic > 0) force += bottomForce * elastic ** 3;
  const top = (topLength - shaft) / topLength;
  if (top > 0) force -= topForce * top ** 3;
  let atWheel = force / ratio;
  if (depth > 0) atWheel += (bottomForce / endRatio) * depth ** 3 * Math.max(-1, (loss / endRatio) * rate);
  return atWheel;
}

function integrate(f, to) {
  // Gauss-Legendre, five points: exact to degree nine.
  const nodes = [0, 0.5384693101056831, 0.906179845938664];
  const weights = [0.5688888888888889, 0.47862867049936647, 0.23692688505618908];
  let sum = weights[0] * f(to / 2);
  for (let i = 1; i < 3; i++)
    sum += weights[i] * (f((to / 2) * (1 + nodes[i])) + f((to / 2) * (1 - nodes[i])));
  return (sum * to) / 2;
}

/** p·V = const from full extension to rest, p·Vⁿ = const from there; the chambers part where the port closes. */
function spring(s, x, rest) {
  if (s.kind === 'coil') return s.rate * (s.preload + x);
  const full = s.volume - s.spacers * s.spacerVolume;
  const absolute = s.pressure + ATMOSPHERE;
  const quick = (slow, before, after) => slow * Math.pow(before / after, s.exponent);
  const positive = quick((absolute * full) / (full - s.area * rest), full - s.area * rest, full - s.area * x);
  const atPort = (absolute * full) / (full - s.area * s.portTravel);
  const below = (at) => s.negativeVolume + s.negativeArea * at;
  const negative = quick((atPort * below(s.portTravel)) / below(rest), below(rest), below(x));
  return s.area * (positive - ATMOSPHERE) - s.negativeArea * (negative - ATMOSPHERE);
}

/** σ = √F of the damper by bisection alone. */
function root({ orifice, stack, preload }, speed) {
  const flow = (s) => orifice * s + stack * Math.max(0, s * s - preload) * s;
  let low = 0;
  let high = 1;
  while (flow(high) < speed) high *= 2;
  for (let i = 0; i < 70; i++) {
    const middle = (low + high) / 2;
    if (flow(middle) < speed) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

function tyre({ shape, stiffness, loss }, deflection, rate) {
  if (deflection <= 0) return 0;
  const rest = stiffness * (shape === 'hertz' ? Math.pow(deflection, 1.5) : deflection);
  return Math.max(0, rest * (1 + loss * rate));
}
