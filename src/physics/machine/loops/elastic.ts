/** Spring and stops, and the table of both over wheel travel: the laws of `bike/spring.ts` and `bike/stops.ts`. */
import type { f64, i32, Numbers } from './numbers.ts';
import { power } from './numbers.ts';
import { bendOf, ratioOf, shaftOf } from './ratio.ts';

/** Absolute pressure of a gas after its volume changed by a ratio, before ÷ after: p·Vⁿ = const. */
export function polytropicPressure(pressure: f64, ratio: f64, exponent: f64): f64 {
  return pressure * power(ratio, exponent);
}

/** Volume of the positive chamber at a shaft travel, m³, of a spring as `springNumbers` puts it. */
function positiveVolume(spring: Numbers, shaft: f64): f64 {
  return spring[3]! - spring[1]! * shaft;
}

function negativeVolume(spring: Numbers, shaft: f64): f64 {
  return spring[4]! + spring[2]! * shaft;
}

/** Absolute pressures of both chambers, Pa; a coil has none. */
function positivePressure(spring: Numbers, shaft: f64): f64 {
  if (spring[0] === 0) return 0;
  return polytropicPressure(spring[6]!, spring[7]! / positiveVolume(spring, shaft), spring[5]!);
}

function negativePressure(spring: Numbers, shaft: f64): f64 {
  if (spring[0] === 0) return 0;
  return polytropicPressure(spring[8]!, spring[9]! / negativeVolume(spring, shaft), spring[5]!);
}

function pushUnder(spring: Numbers, shaft: f64, positive: f64, negative: f64): f64 {
  if (spring[0] === 0) return spring[1]! * (spring[2]! + shaft);
  return spring[1]! * (positive - spring[10]!) - spring[2]! * (negative - spring[10]!);
}

function slopeUnder(spring: Numbers, shaft: f64, positive: f64, negative: f64): f64 {
  const area = spring[1]!;
  if (spring[0] === 0) return area;
  const negativeArea = spring[2]!;
  return (
    spring[5]! *
    ((positive * (area * area)) / positiveVolume(spring, shaft) +
      (negative * (negativeArea * negativeArea)) / negativeVolume(spring, shaft))
  );
}

/** N at a shaft travel in m: absolute pressure inside the gas law, gauge pressure for the force. */
export function springPush(spring: Numbers, shaft: f64): f64 {
  return pushUnder(spring, shaft, positivePressure(spring, shaft), negativePressure(spring, shaft));
}

/** N of gas that stands at a shaft travel in m until it has its temperature again: p·V = const. */
export function restPush(spring: Numbers, shaft: f64): f64 {
  if (spring[0] === 0) return pushUnder(spring, shaft, 0, 0);
  const positive = (spring[6]! * spring[7]!) / positiveVolume(spring, shaft);
  const negative = (spring[8]! * spring[9]!) / negativeVolume(spring, shaft);
  return pushUnder(spring, shaft, positive, negative);
}

/** N/m: for each chamber n·p·A²/V with the absolute pressure. */
export function springSlope(spring: Numbers, shaft: f64): f64 {
  return slopeUnder(spring, shaft, positivePressure(spring, shaft), negativePressure(spring, shaft));
}

/** A product, not a power, which rounds otherwise. */
function cubed(x: f64): f64 {
  return x * x * x;
}

/** N, + = extending. @param stops stroke, then length and force of the bottom and of the top stop */
export function stopPush(stops: Numbers, shaft: f64): f64 {
  const bottom = shaft - (stops[0]! - stops[1]!);
  if (bottom > 0) return stops[2]! * cubed(bottom / stops[1]!);
  const top = stops[3]! - shaft;
  if (top > 0) return -stops[4]! * cubed(top / stops[3]!);
  return 0;
}

/** Slope of the same, N/m. */
export function stopSlope(stops: Numbers, shaft: f64): f64 {
  const bottom = shaft - (stops[0]! - stops[1]!);
  if (bottom > 0) return (3 * stops[2]! * (bottom * bottom)) / cubed(stops[1]!);
  const top = stops[3]! - shaft;
  if (top > 0) return (3 * stops[4]! * (top * top)) / cubed(stops[3]!);
  return 0;
}

/** Nodes of `pieces` pieces, their slopes times the spacing: force at the wheel = force at the shaft ÷ ratio. */
export function elasticTable(
  nodes: Numbers,
  pieces: i32,
  first: f64,
  spacing: f64,
  linkage: Numbers,
  stops: Numbers,
  spring: Numbers,
): void {
  const c0 = linkage[0]!;
  const c1 = linkage[1]!;
  const c2 = linkage[2]!;
  for (let i = 0; i <= pieces; i++) {
    const wheel = first + i * spacing;
    const shaft = shaftOf(c0, c1, c2, wheel);
    const ratio = ratioOf(c0, c1, c2, wheel);
    const positive = positivePressure(spring, shaft);
    const negative = negativePressure(spring, shaft);
    const force = pushUnder(spring, shaft, positive, negative) + stopPush(stops, shaft);
    const stiffness = slopeUnder(spring, shaft, positive, negative) + stopSlope(stops, shaft);
    nodes[2 * i] = force / ratio;
    nodes[2 * i + 1] = ((stiffness - force * bendOf(c1, c2, wheel)) / (ratio * ratio)) * spacing;
  }
}
