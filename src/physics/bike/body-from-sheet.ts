/** Frame and rider out of a sheet: where the masses are, and what carries the rider. */
import type { BikeSheet } from '../../bike/sheet.ts';
import type { Body, Frame, Rider } from './bike.ts';
import { FRAME, RIDER, WHEEL_RADIUS } from '../defaults.ts';
import { KINDS } from '../usual-bikes.ts';

/** A mass at a place ahead of the rear axle and a height above the ground; kg, m. */
interface Lump {
  readonly mass: number;
  readonly at: number;
  readonly high: number;
}

/** @param frontShare of the weight above the springs, from its mass in kg */
export function bodyOf(sheet: BikeSheet, frontShare: (mass: number) => number): Body {
  const kind = KINDS[sheet.kind];
  const wheels = kind.unsprung.front + kind.unsprung.rear;
  const person = sheet.riderMass ?? RIDER.mass;
  const bare = Math.max(FRAME.leastMass, (sheet.bikeMass ?? kind.bikeMass) - wheels);
  const mass = person + bare;
  const wheelbase = sheet.geometry?.wheelbase ?? kind.wheelbase;
  const toRear = frontShare(mass) * wheelbase;

  const feet: Lump = {
    mass: RIDER.onPedals * person,
    at: RIDER.pedalsFromRear * wheelbase,
    high: FRAME.pedalHeight,
  };
  const hands: Lump = {
    mass: RIDER.onBars * person,
    at: wheelbase - RIDER.handsBehindAxle,
    high: FRAME.barHeight,
  };
  const bike: Lump = { mass: bare, at: FRAME.place * wheelbase, high: FRAME.height };
  const lumps = [bike, feet, hands];
  const frameMass = sum(lumps.map((l) => l.mass));
  const frameAt = sum(lumps.map((l) => l.mass * l.at)) / frameMass;
  const frameHigh = sum(lumps.map((l) => l.mass * l.high)) / frameMass;
  // What is left of the rider stands where the load share of the whole asks for it.
  const riderMass = mass - frameMass;
  const riderAt = (mass * toRear - frameMass * frameAt) / riderMass;

  const frame: Frame = {
    mass: frameMass,
    inertia:
      bare * FRAME.gyration ** 2 +
      sum(lumps.map((l) => l.mass * ((l.at - frameAt) ** 2 + (l.high - frameHigh) ** 2))),
    toFront: wheelbase - frameAt,
    toRear: frameAt,
    toBars: hands.at - frameAt,
    toFeet: feet.at - frameAt,
    slowed: frameMass * frameHigh + wheels * WHEEL_RADIUS + riderMass * RIDER.braces,
  };
  const rider = standing(riderMass, hands.at - riderAt, feet.at - riderAt);
  return {
    mass,
    toFront: wheelbase - toRear,
    toRear,
    height: (frame.slowed + rider.slowed) / mass,
    frame,
    rider,
  };
}

/** A rider on legs of a known frequency and damping, and on arms that steady the pitch. */
function standing(mass: number, toBars: number, toFeet: number): Rider {
  const inertia = mass * RIDER.gyration ** 2;
  const w = 2 * Math.PI * RIDER.legsFrequency;
  const pitch = RIDER.armsStiffness * toBars ** 2; // N·m a rad
  return {
    mass,
    inertia,
    toBars,
    toFeet,
    legs: { stiffness: mass * w ** 2, damping: 2 * RIDER.legsDamping * mass * w },
    arms: {
      stiffness: RIDER.armsStiffness,
      damping: (2 * RIDER.armsDamping * Math.sqrt(pitch * inertia)) / toBars ** 2,
    },
    slowed: mass * (RIDER.height - RIDER.braces),
  };
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
