/**
 * The run: classical fourth-order Runge–Kutta with a fixed step (Hairer, Nørsett & Wanner, Solving Ordinary
 * Differential Equations I, 2nd ed. 1993, table II.1.2; from memory). Same input, same bits out.
 */
import type { CompiledBike } from './compile.ts';
import type { Drive } from './drive.ts';
import { restState } from './equilibrium.ts';
import { accelerate } from './motion.ts';

/** What is kept of one end, once every `every` steps. */
export interface EndTrace {
  /** vertical wheel travel from full extension, m, and its rate, m/s (+ = compressing) */
  readonly travel: Float64Array;
  readonly rate: Float64Array;
  /** force of the suspension on the body at this end, N at the wheel */
  readonly force: Float64Array;
  /** tyre load, N */
  readonly tyre: Float64Array;
  /** upward speed of the body above this axle, m/s */
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
  /** upward acceleration at the hands, m/s², at every step */
  readonly bars: Float64Array;
  /** seconds between values of `bars` */
  readonly step: number;
  /** state at the end */
  readonly last: Float64Array;
}

/** Samples are 1 ms apart at the default step. */
const EVERY = 4;

/** @param from the state to start in; default: at rest under the drive's first instant */
export function simulate(c: CompiledBike, drive: Drive, from?: Float64Array, every = EVERY): Trace {
  const { step, steps } = drive;
  const samples = Math.floor(steps / every) + 1;
  const front = emptyEnd(samples);
  const rear = emptyEnd(samples);
  const pitch = new Float64Array(samples);
  const pitchRate = new Float64Array(samples);
  const bars = new Float64Array(steps + 1);
  const y =
    from?.slice() ?? restState(c, drive.gravity[0], drive.braking[0], drive.roadFront[0], drive.roadRear[0]);
  const stage = new Float64Array(8);
  const a = new Float64Array(8);
  const sum = new Float64Array(8);

  for (let i = 0; i <= steps; i++) {
    accelerate(c, y, drive, 2 * i, a);
    bars[i] = a[0]! + c.toBars * a[1]!;
    if (i % every === 0) {
      const s = i / every;
      keep(front, s, y[2]! - y[0]! - c.toFront * y[1]!, y[6]!, y[4]! + c.toFront * y[5]!, a[4]!, a[6]!);
      keep(rear, s, y[3]! - y[0]! + c.toRear * y[1]!, y[7]!, y[4]! - c.toRear * y[5]!, a[5]!, a[7]!);
      pitch[s] = y[1]!;
      pitchRate[s] = y[5]!;
    }
    if (i === steps) break;

    const half = step / 2;
    for (let k = 0; k < 4; k++) {
      sum[k] = y[k + 4]!;
      sum[k + 4] = a[k]!;
      stage[k] = y[k]! + half * y[k + 4]!;
      stage[k + 4] = y[k + 4]! + half * a[k]!;
    }
    accelerate(c, stage, drive, 2 * i + 1, a);
    for (let k = 0; k < 4; k++) {
      const rate = stage[k + 4]!;
      sum[k]! += 2 * rate;
      sum[k + 4]! += 2 * a[k]!;
      stage[k] = y[k]! + half * rate;
      stage[k + 4] = y[k + 4]! + half * a[k]!;
    }
    accelerate(c, stage, drive, 2 * i + 1, a);
    for (let k = 0; k < 4; k++) {
      const rate = stage[k + 4]!;
      sum[k]! += 2 * rate;
      sum[k + 4]! += 2 * a[k]!;
      stage[k] = y[k]! + step * rate;
      stage[k + 4] = y[k + 4]! + step * a[k]!;
    }
    accelerate(c, stage, drive, 2 * i + 2, a);
    const sixth = step / 6;
    for (let k = 0; k < 4; k++) {
      const rate = stage[k + 4]!;
      y[k]! += sixth * (sum[k]! + rate);
      y[k + 4]! += sixth * (sum[k + 4]! + a[k]!);
    }
  }
  return { interval: step * every, samples, front, rear, pitch, pitchRate, bars, step, last: y };
}

function keep(
  end: EndTrace,
  at: number,
  travel: number,
  wheelRate: number,
  bodyRate: number,
  force: number,
  tyre: number,
): void {
  end.travel[at] = travel;
  end.rate[at] = wheelRate - bodyRate;
  end.force[at] = force;
  end.tyre[at] = tyre;
  end.bodyRate[at] = bodyRate;
}

function emptyEnd(samples: number): EndTrace {
  const make = (): Float64Array => new Float64Array(samples);
  return { travel: make(), rate: make(), force: make(), tyre: make(), bodyRate: make() };
}
