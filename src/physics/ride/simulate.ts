/** One run of a bike over a drive, from rest to the end (`machine/loops/run.ts`). Same input, same bits out. */
import type { CompiledBike, CompiledEnd } from './compile.ts';
import { DRIVE, type Drive } from './drive.ts';
import { restState } from '../bike/equilibrium.ts';
import { machine } from '../machine/machine.ts';
import { blockOf, fixed, traceOf, type Trace } from './trace.ts';

/** s between samples that are kept; a step never is longer */
const SAMPLE = 0.001;

/** At rest under the first instant of a drive. */
function firstState(c: CompiledBike, { table }: Drive): Float64Array {
  const gravity = table[DRIVE.gravity]!;
  return restState(c, gravity, table[DRIVE.grip]! * gravity, table[DRIVE.front], table[DRIVE.rear]);
}

/** What a run reads of an end: its two tables taken apart, and its bumper. */
const endNumbers = ({ elastic, drag, bumperFrom, bumper, bumperLoss }: CompiledEnd): Float64Array =>
  Float64Array.of(
    elastic.first,
    elastic.perUnit,
    elastic.pieces,
    drag.first,
    drag.perUnit,
    drag.pieces,
    bumperFrom,
    bumper,
    bumperLoss,
  );

/** The bike's own numbers, in the order in which `run` takes them. */
const bikeNumbers = (c: CompiledBike): number[] => [
  c.total,
  c.perTotal,
  c.frameSlowed,
  c.toFront,
  c.toRear,
  c.toBars,
  c.toFeet,
  c.perFrameMass,
  c.perFrameInertia,
  c.riderMass,
  c.perRiderMass,
  c.perRiderInertia,
  c.riderSlowed,
  c.riderBars,
  c.riderFeet,
  c.legs,
  c.legsLoss,
  c.arms,
  c.armsLoss,
  c.frameShare,
  c.riderShare,
  c.frameTurns,
  c.riderTurns,
  c.apart,
  c.bodyToFront,
  c.bodyToRear,
];

/** An end's own numbers, in that order too. */
const wheelNumbers = (end: CompiledEnd): number[] => [
  end.tyreLoss,
  end.hertz ? 1 : 0,
  end.tyreStiffness,
  end.perUnsprungMass,
  end.braking,
  end.bump,
  end.chain,
  end.c0,
  end.c1,
  end.c2,
];

/**
 * @param from the state to start in; default: at rest under the drive's first instant
 * @param every steps a sample
 * @param held the trace stays where the loops work, which spares a copy of it: it is good until the next run, or until
 * anything else is held there
 */
export function simulate(
  c: CompiledBike,
  drive: Drive,
  from: Float64Array = firstState(c, drive),
  every = Math.max(1, Math.round(SAMPLE / drive.step)),
  held = false,
): Trace {
  const { step, steps, table, perSpeed } = drive;
  const samples = Math.floor(steps / every) + 1;
  const size = blockOf(samples, steps);
  const { front, rear } = c;
  // The bike's own level: rolling along a slope it leans with it, and the ground pushes square to its wheels.
  const level = from[1]! - (table[DRIVE.front]! - table[DRIVE.rear]!) / (c.toFront + c.toRear);
  const numbers = Float64Array.from([
    step,
    perSpeed,
    level,
    ...bikeNumbers(c),
    ...wheelNumbers(front),
    ...wheelNumbers(rear),
  ]);
  const { code, place, hold, read } = machine();
  const room = held ? hold(size) : undefined;
  const [own, frontEnd, rearEnd, frontElastic, frontDrag, rearElastic, rearDrag, drives, state, out] = place(
    [
      numbers,
      endNumbers(front),
      endNumbers(rear),
      front.elastic.nodes,
      front.drag.nodes,
      rear.elastic.nodes,
      rear.drag.nodes,
      table,
      from,
    ],
    room === undefined ? size : 0,
  );
  const block = room ?? out;
  code.run(
    own,
    frontEnd,
    rearEnd,
    frontElastic,
    frontDrag,
    rearElastic,
    rearDrag,
    drives,
    block,
    samples,
    state,
    every,
    steps,
  );
  const last = read(state, from.length).slice();
  const parts = { samples, interval: step * every, steps, step, last };
  if (held) return traceOf(parts, (first, length) => read(block, length, first));
  const copy = read(block, size).slice();
  return fixed(traceOf(parts, (first, length) => copy.subarray(first, first + length)));
}
