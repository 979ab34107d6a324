/** The loops of the model, as `machine.ts` runs them. */
export { run } from './run.ts';
export { level, ramp, swing, setIn, divide, pavePieces, paveTabled, wave } from './pave.ts';
export { circle, transform, weightedPower, handWeights } from './spectrum.ts';
export { dragTable, steepest } from './drag.ts';
export { elasticTable } from './elastic.ts';
export { shaftOf } from './ratio.ts';
export { depthUnder, restUnder } from './rest.ts';
export {
  meanOf,
  maxOf,
  minOf,
  sumOfSquares,
  variation,
  shareOfNone,
  peakIndex,
  leastTogether,
  whileAbove,
  untilAbove,
  lastBeyond,
  swingsThrough,
} from './readings.ts';
