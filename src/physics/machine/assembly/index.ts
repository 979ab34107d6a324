/** What the machine code offers. It is written in AssemblyScript; the build compiles it (`start/machine.ts`). */
export { run } from './run';
export { level, ramp, swing, setIn, divide, pavePieces, paveTabled, wave } from './pave';
export { circle, transform, weightedPower, handWeights } from './spectrum';
export { dragTable, steepest } from './drag';
export { elasticTable } from './elastic';
