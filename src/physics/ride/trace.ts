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

export function emptyTrace(samples: number, interval: number, steps: number, step: number): Trace {
  const make = (): Float64Array => new Float64Array(samples);
  const end = (): EndTrace => ({
    travel: make(),
    rate: make(),
    force: make(),
    tyre: make(),
    bodyRate: make(),
  });
  return {
    interval,
    samples,
    front: end(),
    rear: end(),
    pitch: make(),
    pitchRate: make(),
    hands: make(),
    bars: new Float64Array(steps + 1),
    step,
    last: new Float64Array(12),
  };
}
