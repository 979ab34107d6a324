/** What a run leaves behind. */

/** What is kept of one end, once every `every` steps. */
export interface EndTrace {
  /** vertical wheel travel from full extension, m, and its rate, m/s (+ = compressing) */
  readonly travel: Float64Array;
  readonly rate: Float64Array;
  /** force of the suspension on the frame at this end, N at the wheel */
  readonly force: Float64Array;
  /** tyre load, N */
  readonly tyre: Float64Array;
  /** upward speed above this axle of frame and rider as one body: what stays when legs and arms have given, m/s */
  readonly bodyRate: Float64Array;
}

export interface Trace {
  /** seconds between samples */
  readonly interval: number;
  readonly samples: number;
  readonly front: EndTrace;
  readonly rear: EndTrace;
  /** rad, nose up, and rad/s */
  readonly pitch: Float64Array;
  readonly pitchRate: Float64Array;
  /** push of the bars on the hands, N */
  readonly hands: Float64Array;
  /** upward acceleration at the bars, m/s², at every step */
  readonly bars: Float64Array;
  /** seconds between values of `bars` */
  readonly step: number;
  /** state at the end, in the order of `STATE`, then the rates */
  readonly last: Float64Array;
}

/** A trace while it is written. */
export interface Recording extends Trace {
  /** the one block in which all but the state lie, in the order of `COLUMN`, `samples` numbers each, then `bars` */
  readonly block: Float64Array;
}

/** The columns of a trace's block; of each end in the order of `EndTrace`. */
export const COLUMN = { front: 0, rear: 5, pitch: 10, pitchRate: 11, hands: 12, bars: 13 } as const;

/** Room for one trace after another: what lies in it is good until the next run takes it. */
export interface Room {
  block: Float64Array;
}

/** @param room to write into; by default the trace has its own */
export function emptyTrace(
  samples: number,
  interval: number,
  steps: number,
  step: number,
  room: Room = { block: new Float64Array(0) },
): Recording {
  // One block, because every block is dear to get, and a bike has dozens of runs.
  const length = COLUMN.bars * samples + steps + 1;
  if (room.block.length < length) room.block = new Float64Array(length);
  const block = room.block.subarray(0, length);
  const column = (at: number): Float64Array => block.subarray(at * samples, (at + 1) * samples);
  const end = (first: number): EndTrace => ({
    travel: column(first),
    rate: column(first + 1),
    force: column(first + 2),
    tyre: column(first + 3),
    bodyRate: column(first + 4),
  });
  return {
    interval,
    samples,
    front: end(COLUMN.front),
    rear: end(COLUMN.rear),
    pitch: column(COLUMN.pitch),
    pitchRate: column(COLUMN.pitchRate),
    hands: column(COLUMN.hands),
    bars: block.subarray(COLUMN.bars * samples),
    step,
    last: new Float64Array(12),
    block,
  };
}
