/**
 * One run of a bike over a drive, from rest to the end. Same input, same bits out.
 *
 * It is done a short stretch at a time: for a start of the program, the engine's compiling of it costs as much as all runs,
 * so it must neither be compiled in the middle of a loop nor thrown away because an object has another form.
 */
import type { CompiledBike, CompiledEnd } from './compile.ts';
import { DRIVE, type Drive } from './drive.ts';
import { restState } from '../bike/equilibrium.ts';
import { machine, type Machine } from '../machine/machine.ts';
import { stretch } from './stretch.ts';
import { emptyTrace, type Recording, type Room, type Trace } from './trace.ts';

/** s between samples that are kept; a step never is longer */
const SAMPLE = 0.001;

/** At rest under the first instant of a drive. */
function firstState(c: CompiledBike, { table }: Drive): Float64Array {
  const gravity = table[DRIVE.gravity]!;
  return restState(c, gravity, table[DRIVE.grip]! * gravity, table[DRIVE.front], table[DRIVE.rear]);
}

/** Steps done in one call: long enough that taking up its numbers is little, short enough that no call waits for compiled code. */
const STRETCH = 10;

/** What a stretch reads of an end: its two tables taken apart, and its bumper. */
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

/** The bike's own numbers, in the order in which `stretch` takes them. */
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
 * @param room where the trace is written, over the one that is there
 */
export function simulate(
  c: CompiledBike,
  drive: Drive,
  from: Float64Array = firstState(c, drive),
  every = Math.max(1, Math.round(SAMPLE / drive.step)),
  room?: Room,
): Trace {
  const { step, steps, table, perSpeed } = drive;
  const trace = emptyTrace(Math.floor(steps / every) + 1, step * every, steps, step, room);
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
  trace.last.set(from);
  const by = machine();
  const lists = [
    numbers,
    endNumbers(front),
    endNumbers(rear),
    front.elastic.nodes,
    front.drag.nodes,
    rear.elastic.nodes,
    rear.drag.nodes,
    table,
  ] as const;
  if (by === undefined) inStretches(...lists, trace.block, trace.samples, trace.last, every, steps);
  else atOnce(by, lists, trace, every, steps);
  return trace;
}

/** All of a run in machine code. */
function atOnce(
  { place, at, code }: Machine,
  lists: readonly Float64Array[],
  { block, samples, last }: Recording,
  every: number,
  steps: number,
): void {
  const pointers = place([...lists, last], block.length);
  const [numbers, front, rear, frontElastic, frontDrag, rearElastic, rearDrag, table, state, out] =
    pointers as readonly number[] & { readonly length: 10 };
  code.run(
    numbers!,
    front!,
    rear!,
    frontElastic!,
    frontDrag!,
    rearElastic!,
    rearDrag!,
    table!,
    out!,
    samples,
    state!,
    every,
    steps,
  );
  block.set(at(out!, block.length));
  last.set(at(state!, last.length));
}

/** All of a run; by itself, because the engine compiles what it finds looping, and should compile no more than the loop. */
function inStretches(
  numbers: Float64Array,
  front: Float64Array,
  rear: Float64Array,
  frontElastic: Float64Array,
  frontDrag: Float64Array,
  rearElastic: Float64Array,
  rearDrag: Float64Array,
  table: Float64Array,
  block: Float64Array,
  samples: number,
  last: Float64Array,
  every: number,
  steps: number,
): void {
  for (let at = 0; at <= steps; at += STRETCH)
    stretch(
      numbers,
      front,
      rear,
      frontElastic,
      frontDrag,
      rearElastic,
      rearDrag,
      table,
      block,
      samples,
      last,
      every,
      at,
      Math.min(at + STRETCH, steps + 1),
      steps,
    );
}
