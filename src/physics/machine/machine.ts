/**
 * The loops of the model as machine code. A start runs most of a loop before the engine has compiled it, and compiling costs
 * as much again; this is fast at once. Every loop is written in TypeScript too, which says what it does and stands in where
 * there is no such code; both give the same bits, which a test holds.
 */
import { bytes } from './bytes.ts';

/** Pointers are bytes in the memory; numbers lie eight bytes apart. */
interface Exports {
  readonly memory: { readonly buffer: ArrayBuffer; grow(pages: number): number };
  run(
    numbers: number,
    front: number,
    rear: number,
    frontElastic: number,
    frontDrag: number,
    rearElastic: number,
    rearDrag: number,
    table: number,
    block: number,
    samples: number,
    last: number,
    every: number,
    steps: number,
  ): void;
  level(table: number, rows: number, value: number): void;
  ramp(table: number, rows: number, step: number, by: number, from: number, lasts: number): void;
  swing(table: number, rows: number, step: number, by: number, rate: number): void;
  setIn(table: number, rows: number, step: number, lasts: number): void;
  divide(table: number, rows: number, column: number, by: number): void;
  pavePieces(
    table: number,
    rows: number,
    pieces: number,
    end: number,
    ...rolling: readonly [start: number, speed: number, step: number, lag: number, behind: number]
  ): void;
  paveTabled(
    table: number,
    rows: number,
    heights: number,
    slopes: number,
    points: number,
    period: number,
    ...rolling: readonly [start: number, speed: number, step: number, lag: number, behind: number]
  ): void;
  wave(
    heights: number,
    slopes: number,
    points: number,
    amplitude: number,
    steepness: number,
    turnCos: number,
    turnSin: number,
    cosAtFirst: number,
    sinAtFirst: number,
  ): void;
  circle(cos: number, sin: number, n: number): void;
  transform(re: number, im: number, n: number, cos: number, sin: number): void;
  weightedPower(weights: number, re: number, im: number, count: number): number;
  handWeights(weights: number, size: number, step: number, low: number, high: number): void;
  dragTable(nodes: number, pieces: number, first: number, spacing: number, circuits: number): void;
  elasticTable(
    nodes: number,
    pieces: number,
    first: number,
    spacing: number,
    linkage: number,
    stops: number,
    spring: number,
  ): void;
  steepest(nodes: number, pieces: number, first: number, perUnit: number): number;
}

export interface Machine {
  readonly code: Exports;
  /**
   * Puts lists into the memory, one behind the other, and after them leaves room for lists of so many numbers, in which
   * anything may stand; what lay there before is gone. Returns where each begins.
   */
  place(lists: readonly Float64Array[], ...more: readonly number[]): readonly number[];
  /** A list in the memory, good until lists are placed again. */
  at(pointer: number, length: number): Float64Array;
}

/** What `WebAssembly` is here; the types of the language do not have it. */
interface Engine {
  readonly Module: new (code: Uint8Array) => object;
  readonly Instance: new (module: object, imports: object) => { readonly exports: unknown };
}

const PAGE = 65_536; // bytes
/** The compiler keeps the first bytes for itself. */
const FROM = 1024;

let known: Machine | undefined;
let asked = false;

/** Undefined where there is none: in the sources, and where an engine takes no such code. */
export function machine(): Machine | undefined {
  if (!asked) {
    asked = true;
    known = made();
  }
  return known;
}

/** What the loops written in TypeScript make of it, for comparing. */
export function withoutMachine<T>(work: () => T): T {
  const kept = machine();
  known = undefined;
  try {
    return work();
  } finally {
    known = kept;
  }
}

function made(): Machine | undefined {
  const { WebAssembly: engine } = globalThis as unknown as { readonly WebAssembly?: Engine };
  if (bytes === '' || engine === undefined) return undefined;
  let code: Exports;
  try {
    const lent = { cosine: Math.cos, sine: Math.sin, cubeRoot: Math.cbrt, power: Math.pow };
    const module = new engine.Module(Buffer.from(bytes, 'base64'));
    code = new engine.Instance(module, { engine: lent }).exports as Exports;
  } catch {
    // An engine may be told to take none; the loops in TypeScript do the same.
    return undefined;
  }
  let numbers = new Float64Array(code.memory.buffer);
  return {
    code,
    place(lists, ...more) {
      const pointers: number[] = [];
      let next = FROM;
      for (const length of [...lists.map((list) => list.length), ...more]) {
        pointers.push(next);
        next += 8 * length;
      }
      const missing = next - 8 * numbers.length;
      if (missing > 0) {
        code.memory.grow(Math.ceil(missing / PAGE));
        numbers = new Float64Array(code.memory.buffer);
      }
      for (const [i, list] of lists.entries()) numbers.set(list, pointers[i]! / 8);
      return pointers;
    },
    at: (pointer, length) => numbers.subarray(pointer / 8, pointer / 8 + length),
  };
}
