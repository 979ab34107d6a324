/**
 * Plausible bikes and riders, drawn from seeded chance: what an audit asks, and what a sheet leaves open. Every spread is
 * a judgement; they are wide, because no source says how bikes and riders vary.
 */
import { ENDS, type BikeKind, type BikeSheet, type End, type EndSheet } from '../bike/sheet.ts';
import type { Bike, EndModel } from './bike/bike.ts';
import { RIDER } from './defaults.ts';
import { defaultSheet, KINDS } from './usual-bikes.ts';
import { bikeFromSheet } from './bike/from-sheet.ts';
import { seeded } from './ride/roads.ts';
import { clicked } from './settings.ts';

export interface Draw {
  readonly bike: Bike;
  /** multiplies every scenario's speed, or how hard it is */
  readonly pace: number;
}

/** What the model does not know of any bike or rider: factors on what it takes, 1 = as it is taken. */
export interface Unknowns {
  readonly friction: number;
  readonly legs: number;
  readonly arms: number;
  readonly tyre: number;
  readonly pace: number;
  readonly rebound: number;
  readonly compression: number;
}

/** Half-widths as factors: a friction of 1.6 times as much or as little is as likely as not to be beyond. */
const SPREAD: Unknowns = {
  friction: 1.6,
  legs: 1.4,
  arms: 1.5,
  tyre: 1.2,
  pace: 1.15,
  rebound: 1.25,
  compression: 1.25,
};

/** Chance in [−1, 1] with its middle likelier than its ends. */
function middling(random: () => number): number {
  return random() + random() - 1;
}

function unknownsFrom(random: () => number): Unknowns {
  const factor = (most: number): number => most ** middling(random);
  return {
    friction: factor(SPREAD.friction),
    legs: factor(SPREAD.legs),
    arms: factor(SPREAD.arms),
    tyre: factor(SPREAD.tyre),
    pace: factor(SPREAD.pace),
    rebound: factor(SPREAD.rebound),
    compression: factor(SPREAD.compression),
  };
}

/** The bike with what is not known of it as drawn. A damper's factor is on its forces. */
function withUnknowns(bike: Bike, u: Unknowns): Bike {
  const end = (part: EndModel): EndModel => ({
    ...part,
    friction: { ...part.friction, coulomb: part.friction.coulomb * u.friction },
    tyre: { ...part.tyre, stiffness: part.tyre.stiffness * u.tyre },
    rebound: scaled(part.rebound, u.rebound),
    compression: scaled(part.compression, u.compression),
  });
  const { rider } = bike.body;
  const body =
    rider === undefined
      ? bike.body
      : {
          ...bike.body,
          rider: {
            ...rider,
            legs: {
              stiffness: rider.legs.stiffness * u.legs,
              damping: rider.legs.damping * Math.sqrt(u.legs),
            },
            arms: {
              stiffness: rider.arms.stiffness * u.arms,
              damping: rider.arms.damping * Math.sqrt(u.arms),
            },
          },
        };
  return { ...bike, body, ends: { front: end(bike.ends.front), rear: end(bike.ends.rear) } };
}

/** Every force of a circuit times a factor: α/√r, γ/r^1.5, r·preload. */
function scaled(circuit: EndModel['rebound'], factor: number): EndModel['rebound'] {
  return {
    orifice: circuit.orifice / Math.sqrt(factor),
    stack: circuit.stack / factor ** 1.5,
    preload: circuit.preload * factor,
  };
}

/** The same bike, `count` times, with what its sheet leaves open drawn anew each time. The first is the bike itself. */
export function drawsOf(bike: Bike, count: number): readonly Draw[] {
  const random = seeded(1);
  return Array.from({ length: count }, (_, i): Draw => {
    const unknown = unknownsFrom(random);
    return i === 0 ? { bike, pace: 1 } : { bike: withUnknowns(bike, unknown), pace: unknown.pace };
  });
}

const KIND_LIST: readonly BikeKind[] = ['trail', 'enduro', 'downhill'];

/** Bikes that could stand in any car park: kind, masses, sag, tyres, clicks, coil or air, and all that is unknown. */
export function plausibleBikes(count: number, seed = 1): readonly Draw[] {
  const random = seeded(seed);
  return Array.from({ length: count }, (_, i): Draw => {
    const sheet = plausibleSheet(KIND_LIST[i % KIND_LIST.length]!, random);
    let bike = bikeFromSheet(sheet);
    for (const end of ENDS) {
      let part = bike.ends[end];
      for (const side of ['rebound', 'compression'] as const) {
        part = clicked(part, `${side}.low`, 3 * middling(random));
        part = clicked(part, `${side}.high`, 1.5 * middling(random));
      }
      bike = { ...bike, ends: { ...bike.ends, [end]: part } };
    }
    const unknown = unknownsFrom(random);
    return { bike: withUnknowns(bike, unknown), pace: unknown.pace };
  });
}

function plausibleSheet(kind: BikeKind, random: () => number): BikeSheet {
  const sheet = defaultSheet(kind);
  const usual = KINDS[kind];
  const coil = random() < 0.3;
  const part = (end: End): EndSheet => {
    const from = sheet.ends[end];
    const spring: EndSheet['spring'] =
      end === 'rear' && coil
        ? { kind: 'coil' }
        : { kind: 'air', spacers: Math.floor(3 * random()), spacersMax: 5 };
    return {
      ...from,
      spring,
      sagMeasured: usual[end].sag * (1 + 0.2 * middling(random)),
      tyre: { now: from.tyre!.now! * (1 + 0.15 * middling(random)) },
    };
  };
  return {
    ...sheet,
    riderMass: RIDER.mass + 25 * middling(random),
    bikeMass: usual.bikeMass * (1 + 0.1 * middling(random)),
    ends: { front: part('front'), rear: part('rear') },
  };
}
