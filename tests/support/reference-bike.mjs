// The half-bike written a second time from the equations alone: no tables, the damper's cubic solved by bisection and
// Newton's method, every law in its textbook form. Shares nothing with src/dynamics but the description of the bike.

const ATMOSPHERE = 101_325;

/** @returns (time, state) → rates, for a bike on a road given as height(x), slope(x) */
export function referenceRates(bike, { height, slope, speed, start = 0, gravity, braking }) {
  const { mass, inertia, toFront, toRear, height: high } = bike.body;
  const wheelbase = toFront + toRear;
  return (t, y) => {
    const [z, pitch, zf, zr, vz, vp, vf, vr] = y;
    const g = gravity(t);
    const ff = endForce(bike.ends.front, zf - (z + toFront * pitch), vf - (vz + toFront * vp));
    const fr = endForce(bike.ends.rear, zr - (z - toRear * pitch), vr - (vz - toRear * vp));
    const x = start + speed * t;
    const tf = tyre(bike.ends.front.tyre, height(x) - zf, speed * slope(x) - vf);
    const tr = tyre(bike.ends.rear.tyre, height(x - wheelbase) - zr, speed * slope(x - wheelbase) - vr);
    return [
      vz,
      vp,
      vf,
      vr,
      (ff + fr - mass * g) / mass,
      (toFront * ff - toRear * fr - mass * high * braking(t)) / inertia,
      (tf - ff) / bike.ends.front.unsprungMass - g,
      (tr - fr) / bike.ends.rear.unsprungMass - g,
    ];
  };
}

export function endForce(end, travel, rate) {
  const { c0, c1, c2 } = end.linkage;
  const ratio = c0 + c1 * travel + c2 * travel * travel;
  const shaft = integrate((x) => 1 / (c0 + c1 * x + c2 * x * x), travel);
  const stroke = integrate((x) => 1 / (c0 + c1 * x + c2 * x * x), end.linkage.travel);
  const v = rate / ratio;
  const circuit = v > 0 ? end.compression : end.rebound;
  const sigma = root(circuit, Math.abs(v));
  const { coulomb, blend, viscous } = end.friction;
  let force = spring(end.spring, shaft) + Math.sign(v) * sigma * sigma;
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

function spring(s, x) {
  if (s.kind === 'coil') return s.rate * (s.preload + x);
  const full = s.volume - s.spacers * s.spacerVolume;
  const absolute = s.pressure + ATMOSPHERE;
  const positive = absolute * Math.pow(full / (full - s.area * x), s.exponent);
  const atPort = absolute * Math.pow(full / (full - s.area * s.portTravel), s.exponent);
  const negative =
    atPort *
    Math.pow(
      (s.negativeVolume + s.negativeArea * s.portTravel) / (s.negativeVolume + s.negativeArea * x),
      s.exponent,
    );
  return s.area * (positive - ATMOSPHERE) - s.negativeArea * (negative - ATMOSPHERE);
}

function root({ orifice, stack }, speed) {
  let low = 0;
  let high = 1;
  const f = (s) => orifice * s + stack * s ** 3 - speed;
  while (f(high) < 0) high *= 2;
  for (let i = 0; i < 12; i++) {
    const middle = (low + high) / 2;
    if (f(middle) < 0) low = middle;
    else high = middle;
  }
  let s = (low + high) / 2;
  for (let i = 0; i < 6; i++) s -= f(s) / (orifice + 3 * stack * s * s);
  return s;
}

function tyre({ shape, stiffness, loss }, deflection, rate) {
  if (deflection <= 0) return 0;
  const rest = stiffness * (shape === 'hertz' ? Math.pow(deflection, 1.5) : deflection);
  return Math.max(0, rest * (1 + loss * rate));
}
