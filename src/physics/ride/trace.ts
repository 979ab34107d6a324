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

/** The columns of a trace's block, `samples` numbers each, then `bars`; of each end in the order of `EndTrace`. */
const COLUMN = { front: 0, rear: 5, pitch: 10, pitchRate: 11, hands: 12, bars: 13 } as const;

/** How many numbers the block of a trace has in which all but the state lies. */
export function blockOf(samples: number, steps: number): number {
  return COLUMN.bars * samples + steps + 1;
}

/** @param part of the block: so many numbers of it, from one on; asked for at every look */
export function traceOf(
  {
    samples,
    interval,
    steps,
    step,
    last,
  }: Pick<Trace, 'samples' | 'interval' | 'step' | 'last'> & { readonly steps: number },
  part: (from: number, length: number) => Float64Array,
): Trace {
  const column = (at: number): Float64Array => part(at * samples, samples);
  const end = (first: number): EndTrace => ({
    get travel() {
      return column(first);
    },
    get rate() {
      return column(first + 1);
    },
    get force() {
      return column(first + 2);
    },
    get tyre() {
      return column(first + 3);
    },
    get bodyRate() {
      return column(first + 4);
    },
  });
  return {
    interval,
    samples,
    front: end(COLUMN.front),
    rear: end(COLUMN.rear),
    get pitch() {
      return column(COLUMN.pitch);
    },
    get pitchRate() {
      return column(COLUMN.pitchRate);
    },
    get hands() {
      return column(COLUMN.hands);
    },
    get bars() {
      return part(COLUMN.bars * samples, steps + 1);
    },
    step,
    last,
  };
}

/** The same with every column at hand, of a block that stays as it is. */
export function fixed(trace: Trace): Trace {
  return { ...trace, front: { ...trace.front }, rear: { ...trace.rear } };
}
